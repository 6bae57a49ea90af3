import { escapeHtml } from '../../charts/escape-html.js';
import { present } from '../../plain/present.js';
import type { TrialPlan } from '../../planning/make-plan.js';
import type { Arm, ArmRole } from '../../trial/index.js';
import { csvText } from './csv-text.js';
import { printPage } from './print-page.js';

/** What whoever installs is to do, by the role of the arm. */
const tasks: Readonly<Record<ArmRole, string>> = {
  treated: 'Apply the treatment, as the plan describes it.',
  control: 'Leave the wall as it is. Spend as long at it as at the others.',
  sham: 'Install what looks and sounds like the treatment and does nothing.',
};

/** For the person who knows: the arms, how they were drawn, and a sealed page a wall. No reader may see it. */
export function filesOfWhoKnows(planned: TrialPlan): ReadonlyMap<string, string> {
  const { allocation, plan } = planned;
  const { title } = plan;
  const codeOf = new Map(planned.codes.map(({ code, wall }) => [wall, code]));
  const armOf = new Map(plan.arms.map((arm) => [arm.arm, arm]));
  const rows = allocation.walls.map(({ wall, arm, group = '' }) => [wall, arm, group, codeOf.get(wall) ?? '']);
  const drawn = {
    ...{ title, seed: allocation.seed, draws: allocation.draws },
    ...present({
      beforeDifference: allocation.beforeDifference,
      mostBeforeDifference: plan.allocation.mostBeforeDifference,
    }),
    walls: allocation.walls,
  };
  return new Map([
    ['allocation.csv', csvText(['wall', 'arm', 'block', 'code'], rows)],
    ['allocation.json', `${JSON.stringify(drawn, undefined, 2)}\n`],
    [
      'installer-sealed.html',
      printPage(`Sealed: ${title}`, [
        ...rows.map(([wall = '', arm = '', , code = '']) => sealedPage(title, wall, code, armOf.get(arm))),
      ]),
    ],
  ]);
}

/** The upper part is folded over the lower, or goes outside on the envelope. */
function sealedPage(title: string, wall: string, code: string, arm: Arm | undefined): string {
  const name = escapeHtml(arm?.arm ?? '');
  return `<section class="sealed"><div class="outside"><p>${escapeHtml(title)}</p><b>${escapeHtml(wall)}</b><span class="code">${escapeHtml(code)}</span>
<p><small>Open at the wall, on the day of the treatment, and not before. Not for anybody who reads, lives here or computes.</small></p></div>
<div class="inside"><p>This wall is in the arm</p><b>${name}</b><p>${arm === undefined ? '' : tasks[arm.role]}</p>
<p>Date ______________ Done by ______________________ Signature ______________________</p></div></section>`;
}

/** For those who read: walls under a code, in an order by chance, with nothing of their arms. */
export function filesOfReaders(planned: TrialPlan): ReadonlyMap<string, string> {
  const { codes, plan } = planned;
  const title = escapeHtml(plan.title);
  const rows = codes.map(
    ({ code, wall }, at) =>
      `<tr><td>${at + 1}</td><td class="code">${escapeHtml(code)}</td><td>${escapeHtml(wall)}</td><td></td><td></td></tr>`,
  );
  const labels = codes.map(
    ({ code, wall }) =>
      `<div class="label"><b>${escapeHtml(code)}</b><span>${escapeHtml(wall)}</span><small>${title}</small></div>`,
  );
  return new Map([
    [
      'walls.csv',
      csvText(
        ['order', 'code', 'wall'],
        codes.map(({ code, wall }, at) => [`${at + 1}`, code, wall]),
      ),
    ],
    [
      'walls.html',
      printPage(`Walls to read: ${plan.title}`, [
        `<h1>Walls to read: ${title}</h1><p>Order and codes were drawn by chance and say nothing of what was done to a wall. Whoever learns it writes that down, and when.</p>`,
        `<table><thead><tr><th>Order</th><th>Code</th><th>Wall</th><th>Where it stands</th><th>Remarks</th></tr></thead><tbody>${rows.join('')}</tbody></table>`,
      ]),
    ],
    ['labels.html', printPage(`Labels: ${plan.title}`, [`<div class="labels">${labels.join('')}</div>`])],
    ['believed-arm.html', believedArm(planned)],
  ]);
}

/** Asked of each reader and occupant alone, when all is read: guesses show whether the blinding held. */
function believedArm({ codes, plan }: TrialPlan): string {
  const arms = [...plan.arms.map(({ arm }) => arm), 'unknown'];
  const boxes = arms.map((arm) => `☐ ${escapeHtml(arm)}`).join(' &nbsp; ');
  const rows = codes.map(
    ({ code, wall }) =>
      `<tr><td class="code">${escapeHtml(code)}</td><td>${escapeHtml(wall)}</td><td>${boxes}</td><td></td></tr>`,
  );
  return printPage(`Believed arm: ${plan.title}`, [
    `<h1>Which arm do you believe each wall is in?</h1><p>${escapeHtml(plan.title)}. Asked of each person alone, when the last wall is read. A guess is wanted where nobody knows. It goes into the sheet blinding.</p>`,
    '<table><tbody><tr><th>Person</th><td></td><th>Role (reader, occupant, analyst)</th><td></td><th>Date</th><td></td></tr></tbody></table><p></p>',
    `<table><thead><tr><th>Code</th><th>Wall</th><th>Believed arm</th><th>Why</th></tr></thead><tbody>${rows.join('')}</tbody></table>`,
  ]);
}
