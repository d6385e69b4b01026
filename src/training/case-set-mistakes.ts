import { problem, type Problem } from '../problems/problem.ts';
import type { CaseSet } from './case-set.ts';
import { DEFECT_FACTS } from './defect-facts.ts';
import { PARTS_OF } from '../../simulators/engine/parts.ts';

/**
 * What does not fit together in a set whose form is right: ranges that run backwards, a defect named twice, no complaint for what can be drawn, two
 * defects asked of a set that has no two at different parts, and words that give the defect away. Empty where all is well.
 */
export function caseSetMistakes(set: CaseSet): readonly Problem[] {
  return [...backwards(set), ...twice(set), ...uncomplained(set), ...tooFew(set), ...telling(set)];
}

function backwards({ title, defects, vehicles, temperaturesC }: CaseSet): readonly Problem[] {
  const spans: readonly (readonly [string, { readonly least: number; readonly most: number }])[] = [
    ...defects.map((each) => [`severity of "${each.kind}"`, each] as const),
    ...vehicles.flatMap(({ unit, serialNumbers, hours }) => [
      [`serial numbers of "${unit}"`, serialNumbers] as const,
      [`hours of "${unit}"`, hours] as const,
    ]),
    ['fuel temperature', temperaturesC.fuel],
    ['temperature of the day', temperaturesC.day],
  ];
  return spans
    .filter(([, { least, most }]) => least > most)
    .map(([what]) => problem('training.range-backwards', { set: title, what }));
}

const twice = ({ title, defects }: CaseSet): readonly Problem[] =>
  defects
    .filter(({ kind }, place) => defects.findIndex((each) => each.kind === kind) !== place)
    .map(({ kind }) => problem('training.defect-twice', { set: title, defect: kind }));

/** Without a complaint that fits all, some draw may have none. */
const uncomplained = ({ title, complaints }: CaseSet): readonly Problem[] =>
  complaints.some(({ fits }) => fits.length === 0)
    ? []
    : [problem('training.no-general-complaint', { set: title })];

/** Two at one part would be one repair. */
function tooFew({ title, defects, howMany }: CaseSet): readonly Problem[] {
  if (!howMany.some((each) => each.defects === 2)) return [];
  const loners = defects.filter(({ kind }) => !defects.some((other) => !sharePart(kind, other.kind)));
  return loners.map(({ kind }) => problem('training.no-second-defect', { set: title, defect: kind }));
}

type Kind = CaseSet['defects'][number]['kind'];

/** Whether one new part would take both away. */
export const sharePart = (a: Kind, b: Kind): boolean =>
  PARTS_OF[a].some((part) => PARTS_OF[b].includes(part));

/** The driver does not know what is wrong, and the title must not say it. */
function telling({ title, about, complaints, vehicles }: CaseSet): readonly Problem[] {
  const said = [title, about, ...complaints.map(({ text }) => text), ...vehicles.map(({ unit }) => unit)];
  return said.flatMap((words) => {
    const found = tellingWords(words);
    return found === null ? [] : [problem('training.words-tell', { set: title, words, found })];
  });
}

/** The name of a defect within the words; null where there is none. */
export function tellingWords(words: string): string | null {
  const folded = words.toLowerCase();
  const names = Object.entries(DEFECT_FACTS).flatMap(([kind, { name }]) => [kind, name]);
  return names.find((name) => folded.includes(name.toLowerCase())) ?? null;
}
