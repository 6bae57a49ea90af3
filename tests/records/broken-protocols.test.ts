import { expect, it } from 'vitest';
import { type Edit, editedFolder, protocol, put, refusal, replace } from '../helpers/edit-folder.js';

/** Protocols that no table contradicts: only what is wrong in themselves is refused. */
const plan = (piece: string, by: string): Edit => replace('protocol.json', piece, by);

const cases: readonly [string, readonly Edit[], readonly string[]][] = [
  [
    'an unknown key',
    [plan('"margin"', '"margn"')],
    [
      'protocol.json, line 11, key margn: found the unknown key "margn", expected one of the keys format, title, claim, outcome, margin, confidence, arms, instruments, windows, allocation, selection, blinding, disclosures, plannedOn, compare, marginSource, passMark, secondary, screened, unaffectedAbove_mm, claimedField_v_per_m, dryBelow, adjustments, treatment, against, calibration, planning, columns, sheets, ignore, dateOrder, placesOfCores; did you mean "margin"?',
    ],
  ],
  [
    'an unknown key inside',
    [plan('"quantity"', '"quantiy"')],
    [
      'protocol.json, line 7, key outcome.quantiy: found the unknown key "quantiy", expected one of the keys instrument, quantity, unit, better; did you mean "quantity"?',
    ],
  ],
  [
    'an outcome that is better the lower it is, by a meter that falls where moisture rises',
    [
      plan('"instrument": "core",\n    "quantity"', '"instrument": "mw",\n    "quantity"'),
      plan('"kind": "microwave"', '"kind": "microwave", "readingRises": "against-moisture"'),
    ],
    [
      'protocol.json, line 9, key outcome.better: found "lower", expected higher, for the plan says that this meter falls where moisture rises',
    ],
  ],
  [
    'a key like no other',
    [plan('"margin": 2,', '"margin": 2, "budget": 5,')],
    [
      'protocol.json, line 11, key budget: found the unknown key "budget", expected one of the keys format, title, claim, outcome, margin, confidence, arms, instruments, windows, allocation, selection, blinding, disclosures, plannedOn, compare, marginSource, passMark, secondary, screened, unaffectedAbove_mm, claimedField_v_per_m, dryBelow, adjustments, treatment, against, calibration, planning, columns, sheets, ignore, dateOrder, placesOfCores',
    ],
  ],
  [
    'a key twice',
    [plan('"margin": 2,', '"margin": 2,\n  "margin": 3,')],
    ['protocol.json, line 12, key margin: found the key "margin" twice, expected it once'],
  ],
  [
    'an adjustment that there is not',
    [plan('"margin": 2,', '"margin": 2, "adjustments": ["seson", "wind"],')],
    [
      'protocol.json, line 11, key adjustments[0]: found "seson", expected season, weather, rain or heating; did you mean "season"?',
      'protocol.json, line 11, key adjustments[1]: found "wind", expected season, weather, rain or heating',
    ],
  ],
  [
    'a kind of treatment that there is not',
    [plan('"margin": 2,', '"margin": 2, "treatment": { "kind": "injekted" },')],
    [
      'protocol.json, line 11, key treatment.kind: found "injekted", expected injected, cut, electrodes, device or other; did you mean "injected"?',
    ],
  ],
  [
    'a polarity of what has no electrodes',
    [plan('"margin": 2,', '"margin": 2, "treatment": { "kind": "cut", "polarity": "anode-in-wall" },')],
    [
      'protocol.json, line 11, key treatment.polarity: found "anode-in-wall", expected no key polarity where the treatment is not by electrodes',
    ],
  ],
  [
    'an unknown way of selecting walls',
    [plan('"margin": 2,', '"margin": 2, "selection": "wetest",')],
    [
      'protocol.json, line 11, key selection: found "wetest", expected wettest or not-by-moisture; did you mean "wettest"?',
    ],
  ],
  [
    'a pass mark without its source',
    [plan('"margin": 2,', '"margin": 2, "passMark": { "reduction_pct": 50 },')],
    ['protocol.json, line 11, key passMark.source: found no key "source", expected where the mark comes from, a text'],
  ],
  [
    'a pass mark as the margin, and a margin',
    [
      plan(
        '"margin": 2,',
        '"margin": 2,\n  "passMark": { "reduction_pct": 50, "source": "a tender", "asMargin": true },',
      ),
    ],
    [
      'protocol.json, line 12, key passMark.asMargin: found a margin beside it, expected either a margin or a pass mark as the margin',
    ],
  ],
  [
    'a pass mark that is neither a reduction nor a target',
    [plan('"margin": 2,', '"margin": 2, "passMark": { "source": "a tender" },')],
    [
      'protocol.json, line 11, key passMark.reduction_pct: found no key "reduction_pct", expected either reduction_pct (a percentage), or target with by (a date)',
    ],
  ],
  [
    'a pass mark that is both a reduction and a target',
    [
      plan(
        '"margin": 2,',
        '"margin": 2, "passMark": { "reduction_pct": 50, "target": 6, "by": "2025-12-31", "source": "a tender" },',
      ),
    ],
    [
      'protocol.json, line 11, key passMark: found a reduction and a target, expected either reduction_pct (a percentage), or target with by (a date)',
    ],
  ],
  [
    'a target to be reached before the last readings that are to show it',
    [plan('"margin": 2,', '"passMark": { "target": 6, "by": "2025-05-30", "source": "a tender", "asMargin": true },')],
    [
      'protocol.json, line 11, key passMark.by: found "2025-05-30", expected a day from 2025-05-31 on, when the after window ends',
    ],
  ],
  [
    'a target without its day',
    [plan('"margin": 2,', '"margin": 2, "passMark": { "target": 6, "source": "a tender" },')],
    [
      'protocol.json, line 11, key passMark.by: found no key "by", expected the day by which it is to be reached, "YYYY-MM-DD"',
    ],
  ],
  [
    'a reduction where higher is better',
    [
      plan('"better": "lower"', '"better": "higher"'),
      plan('"margin": 2,', '"margin": 2, "passMark": { "reduction_pct": 50, "source": "a tender" },'),
    ],
    [
      'protocol.json, line 11, key passMark.reduction_pct: found a reduction of an outcome of which more is better, expected a reduction only where lower is better',
    ],
  ],
  [
    'a share of an index as the margin',
    [
      plan('"instrument": "core"', '"instrument": "mw"'),
      plan('"margin": 2,', '"passMark": { "reduction_pct": 50, "source": "a tender", "asMargin": true },'),
    ],
    [
      'protocol.json, line 11, key passMark.asMargin: found an outcome of the kind microwave, expected a reduction as the margin only where the outcome is gravimetric or direct, for an index has no zero',
    ],
  ],
  [
    'a claimed field that is none',
    [plan('"margin": 2,', '"margin": 2, "claimedField_v_per_m": 0,')],
    ['protocol.json, line 11, key claimedField_v_per_m: found 0, expected a field in volts for each metre, above 0'],
  ],
  [
    'a secondary outcome that is the primary one',
    [
      plan(
        '"margin": 2,',
        '"margin": 2, "secondary": [{ "instrument": "core", "quantity": "q", "unit": "u", "better": "lower" }],',
      ),
    ],
    [
      'protocol.json, line 11, key secondary[0]: found the instrument "core" twice, expected an instrument that no other outcome has',
    ],
  ],
  [
    'walls looked at, without their number and the cutoff',
    [plan('"margin": 2,', '"margin": 2, "screened": { "walls": 1, "mean": 7, "standardDeviation": 3 },')],
    [
      'protocol.json, line 11, key screened.walls: found 1, expected how many walls were looked at, a whole number from 2',
      'protocol.json, line 11, key screened.cutoff: found no key "cutoff", expected the value beyond which walls were taken',
    ],
  ],
  [
    'a moisture of dry walls that is none',
    [plan('"margin": 2,', '"margin": 2, "dryBelow": 0,')],
    [
      'protocol.json, line 11, key dryBelow: found 0, expected the moisture at or below which a wall counts as dry, a number above 0, in the unit of the outcome',
    ],
  ],
  [
    'a moisture of dry walls where higher is better',
    [plan('"margin": 2,', '"margin": 2, "dryBelow": 5,'), plan('"better": "lower"', '"better": "higher"')],
    [
      'protocol.json, line 11, key dryBelow: found 5, expected no key dryBelow where the outcome is better the higher it is',
    ],
  ],
  [
    'a needed key left out',
    [plan('  "confidence": 0.95,\n', '')],
    [
      'protocol.json, line 1, key confidence: found no key "confidence", expected the level of the intervals, above 0.5 and at most 0.999, such as 0.95',
    ],
  ],
  [
    'a needed key left out inside',
    [plan(',\n    "better": "lower"', '')],
    ['protocol.json, line 5, key outcome.better: found no key "better", expected lower or higher'],
  ],
  [
    'another format',
    [plan('fairwall-trial/1', 'fairwall-trial/2')],
    [
      'protocol.json, line 2, key format: found "fairwall-trial/2", expected "fairwall-trial/1"; did you mean "fairwall-trial/1"?',
    ],
  ],
  ['no title', [plan('"Four cellar walls"', '" "')], ['protocol.json, line 3, key title: found " ", expected a title']],
  [
    'a claim that is no text',
    [plan('"The device lowers the moisture of the walls within a year"', '7')],
    ['protocol.json, line 4, key claim: found 7, expected the claim under trial, in a sentence'],
  ],
  [
    'an unknown instrument for the outcome',
    [plan('"instrument": "core",\n    "quantity"', '"instrument": "cores",\n    "quantity"')],
    [
      'protocol.json, line 6, key outcome.instrument: found "cores", expected one of the instruments: core or mw; did you mean "core"?',
    ],
  ],
  [
    'an empty unit',
    [plan('"% by mass"', '""')],
    ['protocol.json, line 8, key outcome.unit: found "", expected the unit of the outcome, such as "% by mass"'],
  ],
  [
    'a direction that is none',
    [plan('"lower"', '"less"')],
    ['protocol.json, line 9, key outcome.better: found "less", expected lower or higher'],
  ],
  [
    'a margin of nothing',
    [plan('"margin": 2', '"margin": 0')],
    ['protocol.json, line 11, key margin: found 0, expected a number above 0, in the unit of the outcome'],
  ],
  [
    'a negative margin',
    [plan('"margin": 2', '"margin": -2')],
    ['protocol.json, line 11, key margin: found -2, expected a number above 0, in the unit of the outcome'],
  ],
  [
    'a margin in quotes',
    [plan('"margin": 2', '"margin": "2"')],
    ['protocol.json, line 11, key margin: found "2", expected a number above 0, in the unit of the outcome'],
  ],
  [
    'a margin beyond all numbers',
    [plan('"margin": 2', '"margin": 1e999')],
    ['protocol.json, line 11, key margin: found 1e999, expected a number above 0, in the unit of the outcome'],
  ],
  [
    'a level in percent',
    [plan('0.95', '95')],
    [
      'protocol.json, line 12, key confidence: found 95, expected the level of the intervals, above 0.5 and at most 0.999, such as 0.95',
    ],
  ],
  [
    'a level of one half',
    [plan('0.95', '0.5')],
    [
      'protocol.json, line 12, key confidence: found 0.5, expected the level of the intervals, above 0.5 and at most 0.999, such as 0.95',
    ],
  ],
  [
    'no arms',
    [
      protocol((value) => {
        value.arms = [];
        delete value.compare;
      }),
    ],
    [
      'protocol.json, line 13, key arms: found an empty list [ ], expected a list of at least one arm, each { "arm": …, "role": … } with the role treated, control or sham',
    ],
  ],
  [
    'an arm twice',
    [plan('"arm": "control"', '"arm": "treated"')],
    ['protocol.json, line 19, key arms[1].arm: found the arm "treated" twice, expected each arm once'],
  ],
  [
    'a role that is none',
    [plan('"role": "control"', '"role": "contrl"')],
    [
      'protocol.json, line 20, key arms[1].role: found "contrl", expected treated, control or sham; did you mean "control"?',
    ],
  ],
  [
    'an arm named unknown',
    [
      protocol((value) => {
        value.arms = [...(value.arms as object[]), { arm: 'unknown', role: 'sham' }];
      }),
    ],
    [
      'protocol.json, line 23, key arms[2].arm: found "unknown", expected another name: "unknown" has a meaning of its own in blinding.csv',
    ],
  ],
  [
    'an instrument twice',
    [
      protocol((value) => {
        value.instruments = [...(value.instruments as object[]), { instrument: 'mw', kind: 'microwave' }];
      }),
    ],
    [
      'protocol.json, line 34, key instruments[2].instrument: found the instrument "mw" twice, expected each instrument once',
    ],
  ],
  [
    'a kind of instrument that is none',
    [plan('"microwave"', '"micro-wave"')],
    [
      'protocol.json, line 31, key instruments[1].kind: found "micro-wave", expected gravimetric, carbide, microwave, resistance, capacitance, humidity-probe, embedded-sensor, potential or direct; did you mean "microwave"?',
    ],
  ],
  [
    'a resolution in grams of a meter',
    [plan('"kind": "microwave"', '"kind": "microwave", "resolution_g": 0.1')],
    [
      'protocol.json, line 31, key instruments[1].resolution_g: found resolution_g with kind microwave, expected it only with the kind gravimetric, where a balance is used',
    ],
  ],
  [
    'a resolution of nothing',
    [plan('"resolution_g": 0.01', '"resolution_g": 0')],
    ['protocol.json, line 27, key instruments[0].resolution_g: found 0, expected a number of grams above 0'],
  ],
  [
    'windows that overlap',
    [plan('"to": "2024-05-31"', '"to": "2025-03-01"')],
    [
      'protocol.json, line 34, key windows: found windows that overlap: before to 2025-03-01, after from 2025-03-01, expected a before window that ends on a day before the after window begins',
    ],
  ],
  [
    'windows that run backwards',
    [
      protocol((value) => {
        value.windows = {
          before: { from: '2025-03-01', to: '2025-05-31' },
          after: { from: '2024-03-01', to: '2024-05-31' },
        };
      }),
    ],
    [
      'protocol.json, line 34, key windows: found windows that run backwards: before to 2025-05-31, after from 2024-03-01, expected a before window that ends on a day before the after window begins',
    ],
  ],
  [
    'a window that runs backwards',
    [plan('"to": "2024-05-31"', '"to": "2024-02-28"')],
    [
      'protocol.json, line 35, key windows.before: found a window that runs backwards, from 2024-03-01 to 2024-02-28, expected a window that begins no later than it ends',
    ],
  ],
  [
    'one window only',
    [
      protocol((value) => {
        value.windows = { before: { from: '2024-03-01', to: '2024-05-31' } };
      }),
    ],
    ['protocol.json, line 34, key windows.after: found no key "after", expected an object with the keys from and to'],
  ],
  [
    'a window on a day that does not exist',
    [plan('"to": "2024-05-31"', '"to": "2024-05-32"')],
    [
      'protocol.json, line 37, key windows.before.to: found "2024-05-32", expected a day that exists: May 2024 has 31 days',
    ],
  ],
  [
    'an allocation that is none',
    [plan('"matched-pairs"', '"matched pairs"')],
    [
      'protocol.json, line 45, key allocation.method: found "matched pairs", expected randomised, randomised-in-blocks, matched-pairs or chosen; did you mean "matched-pairs"?',
    ],
  ],
  [
    'a seed that is no whole number',
    [plan('20240201', '1.5')],
    ['protocol.json, line 46, key allocation.seed: found 1.5, expected a whole number'],
  ],
  [
    'blinding in words',
    [plan('"occupants": true', '"occupants": "yes"')],
    ['protocol.json, line 51, key blinding.occupants: found "yes", expected true or false, without quotes'],
  ],
  [
    'a disclosure that is no text',
    [plan('"none"', 'null')],
    ['protocol.json, line 56, key disclosures.interests: found null, expected a text: who gains by its outcome'],
  ],
  [
    'a plan of no day',
    [plan('"2024-02-01"', '"1 February 2024"')],
    [
      'protocol.json, line 58, key plannedOn: found "1 February 2024", expected a date as YYYY-MM-DD, such as 2024-03-01',
    ],
  ],
  [
    'a comparison of unknown arms',
    [plan('      "control"\n', '      "controll"\n')],
    [
      'protocol.json, line 64, key compare.untreated[0]: found "controll", expected one of the arms: treated or control; did you mean "control"?',
    ],
  ],
  [
    'an arm on both sides',
    [plan('      "control"\n', '      "treated"\n')],
    [
      'protocol.json, line 64, key compare.untreated[0]: found the arm "treated" twice, expected each arm once, on one side',
    ],
  ],
  [
    'an untreated arm on the treated side',
    [
      protocol((value) => {
        value.compare = { treated: ['control'], untreated: ['treated'] };
      }),
    ],
    [
      'protocol.json, line 61, key compare.treated[0]: found the arm "control", whose role is control, expected an arm with the role treated',
      'protocol.json, line 64, key compare.untreated[0]: found the arm "treated", whose role is treated, expected an arm with the role control or sham',
    ],
  ],
  [
    'a side without arms',
    [
      protocol((value) => {
        value.compare = { treated: ['treated'], untreated: [] };
      }),
    ],
    ['protocol.json, line 63, key compare.untreated: found an empty list [ ], expected a list of at least one arm'],
  ],
  [
    'a comma too many',
    [plan('"plannedOn": "2024-02-01",', '"plannedOn": "2024-02-01",,')],
    [
      'protocol.json, line 58, column 29: found ",", expected a key in double quotes (and no comma before a closing brace)',
    ],
  ],
  [
    'a comma at the end',
    [plan('"interests": "none"', '"interests": "none",')],
    [
      'protocol.json, line 57, column 3: found "}", expected a key in double quotes (and no comma before a closing brace)',
    ],
  ],
  [
    'a comma too few',
    [plan('"margin": 2,', '"margin": 2')],
    ['protocol.json, line 12, column 3: found "confidence", expected a comma before the next entry'],
  ],
  [
    'a comment',
    [plan('"margin": 2,', '"margin": 2, // in % by mass')],
    ['protocol.json, line 11, column 16: found "// in % by mass", expected no comments (JSON has none)'],
  ],
  [
    'a decimal comma',
    [plan('0.95', '0,95')],
    [
      'protocol.json, line 12, column 19: found "95", expected a key in double quotes (and no comma before a closing brace)',
    ],
  ],
  [
    'quotes of the wrong sort',
    [plan('"margin": 2', '“margin”: 2')],
    [
      'protocol.json, line 11, column 3: found "“margin”", expected JSON: a text in double quotes, a number, true or false',
    ],
  ],
  [
    'a file cut off',
    [
      (files) => {
        files['protocol.json'] = String(files['protocol.json']).slice(0, 180);
      },
    ],
    [
      'protocol.json, line 7, column 2: found the end of the file (it may have been cut off), expected a key in double quotes (and no comma before a closing brace)',
    ],
  ],
  [
    'no object',
    [put('protocol.json', '[]')],
    [
      'protocol.json, line 1: found an empty list [ ], expected an object with the keys format, title, claim, outcome, margin, confidence, arms, instruments, windows, allocation, selection, blinding, disclosures, plannedOn, compare, marginSource, passMark, secondary, screened, unaffectedAbove_mm, claimedField_v_per_m, dryBelow, adjustments, treatment, against, calibration, planning, columns, sheets, ignore, dateOrder, placesOfCores',
    ],
  ],
  [
    'brackets without end',
    [put('protocol.json', '['.repeat(100_000))],
    ['protocol.json: found a text that is not JSON, expected one JSON object, { … }'],
  ],
  [
    'two objects',
    [
      (files) => {
        files['protocol.json'] = `${files['protocol.json']}{}`;
      },
    ],
    ['protocol.json, line 68, column 1: found "{", expected nothing more after the closing brace'],
  ],
];

it.each(cases)('checkTrial(folder) refuses a protocol with %s', async (_, edits, lines) => {
  expect(await refusal(editedFolder(...edits))).toEqual(lines);
});
