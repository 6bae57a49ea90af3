import {
  defaultChoices,
  type FormChoices,
  heightsIn,
  meterKinds,
  type Understood,
  wallsIn,
  wordIn,
} from '../forms/form-choices.js';

/** The flags of `new`, as typed. */
export interface NewFlags {
  readonly title?: string | undefined;
  readonly walls?: string | undefined;
  readonly heights?: string | undefined;
  readonly cores?: boolean | undefined;
  readonly meter?: string | undefined;
}

/** The choices that flags state, and defaults for the others. */
export function choicesOfFlags(flags: NewFlags): Understood<FormChoices> {
  const walls = flags.walls === undefined ? undefined : wallsIn(flags.walls);
  if (walls?.kind === 'not-understood') return { ...walls, expected: `--walls needs ${walls.expected}` };
  const heights = flags.heights === undefined ? undefined : heightsIn(flags.heights);
  if (heights?.kind === 'not-understood') return { ...heights, expected: `--heights needs ${heights.expected}` };
  const meter = flags.meter === undefined ? undefined : wordIn(flags.meter, meterKinds);
  if (meter?.kind === 'not-understood') return { ...meter, expected: `--meter needs ${meter.expected}` };
  const value = {
    title: flags.title?.trim() ?? defaultChoices.title,
    cores: flags.cores === true || meter === undefined,
    walls: walls?.value ?? defaultChoices.walls,
    heights_mm: heights?.value ?? defaultChoices.heights_mm,
    ...(meter === undefined ? {} : { meter: meter.value }),
  };
  return { kind: 'understood', value };
}
