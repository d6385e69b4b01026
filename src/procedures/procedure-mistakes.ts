import { problem, type Problem } from '../problems/problem.ts';
import { ADVICE_WORDS, type Procedure } from './procedure.ts';
import { coverageMistakes } from './coverage-mistakes.ts';
import { settingsMistakes } from './settings-mistakes.ts';

/** What is wrong with a procedure beyond its form: names that lead nowhere, ids twice, checks that wait for themselves or for a later one, what
 * nobody speaks for, and settings that cannot be. Empty where it can be worked with; never throws. */
export function procedureMistakes(procedure: Procedure): readonly Problem[] {
  return [
    ...idsTwice(procedure),
    ...unknownChecks(procedure),
    ...unknownCauses(procedure),
    ...circles(procedure),
    ...outOfOrder(procedure),
    ...coverageMistakes(procedure),
    ...settingsMistakes(procedure),
  ];
}

function idsTwice({ title, checks, causes }: Procedure): readonly Problem[] {
  return [checks, causes].flatMap((list: readonly { readonly id: string }[]) => {
    const ids = list.map(({ id }) => id);
    const twice = new Set(ids.filter((id, place) => ids.indexOf(id) !== place));
    return [...twice].map((id) => problem('procedure.id-twice', { procedure: title, id }));
  });
}

function unknownChecks({ title, checks, causes }: Procedure): readonly Problem[] {
  const known = new Set(checks.map(({ id }) => id));
  const named = [
    ...checks.flatMap((check) => [
      ...check.needs.map((id) => ({ id, place: `what "${check.title}" needs` })),
      ...ADVICE_WORDS.flatMap((word) => {
        const { nextCheck } = check.advice[word];
        return nextCheck === null ? [] : [{ id: nextCheck, place: `the advice of "${check.title}"` }];
      }),
    ]),
    ...causes.flatMap((cause) =>
      cause.repeat.map((id) => ({ id, place: `what is repeated after "${cause.text}"` })),
    ),
  ];
  const unknown = named.filter(({ id }) => !known.has(id));
  const once = new Map(unknown.map((each) => [`${each.place} ${each.id}`, each]));
  return [...once.values()].map(({ id, place }) =>
    problem('procedure.unknown-check', { procedure: title, place, id }),
  );
}

function unknownCauses({ title, checks, causes }: Procedure): readonly Problem[] {
  const known = new Set(causes.map(({ id }) => id));
  const named = checks.flatMap((check) => {
    const advised = ADVICE_WORDS.flatMap((word) => check.advice[word].causes);
    const seen = check.settings.kind === 'inspection' ? check.settings.points.map(({ cause }) => cause) : [];
    return [...new Set([...advised, ...seen])].map((id) => ({ id, place: `"${check.title}"` }));
  });
  return named.flatMap(({ id, place }) =>
    id === null || known.has(id) ? [] : [problem('procedure.unknown-cause', { procedure: title, place, id })],
  );
}

function circles({ title, checks }: Procedure): readonly Problem[] {
  const needsOf = new Map(checks.map(({ id, needs }) => [id, needs]));
  const reaches = (from: string, wanted: string, seen: ReadonlySet<string>): boolean =>
    (needsOf.get(from) ?? []).some(
      (next) => next === wanted || (!seen.has(next) && reaches(next, wanted, new Set([...seen, next]))),
    );
  return checks
    .filter(({ id }) => reaches(id, id, new Set([id])))
    .map((check) => problem('procedure.circle', { procedure: title, check: check.title }));
}

function outOfOrder({ title, checks }: Procedure): readonly Problem[] {
  return checks.flatMap((check, place) =>
    checks
      .slice(place + 1)
      .filter(({ id }) => check.needs.includes(id))
      .map((later) =>
        problem('procedure.order', { procedure: title, check: check.title, needed: later.title }),
      ),
  );
}
