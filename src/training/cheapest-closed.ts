import type { Procedure, ProcedureCheck } from '../procedures/procedure.ts';

interface Search {
  /** The checks to choose from, closed: with each also what it needs. */
  readonly checks: readonly ProcedureCheck[];
  readonly costOf: (check: ProcedureCheck) => number;
  readonly enough: (chosen: readonly ProcedureCheck[]) => boolean;
}

interface Node {
  readonly chosen: number; // bit by bit, in the order of the checks
  readonly cost: number;
}

/**
 * The cheapest choice of checks that is enough, in which nothing stands without what it needs; null where no choice is enough. Uniform-cost search
 * over sets of checks: each is looked at once, the cheapest first, so the first that is enough is the cheapest. Of equal ones the one with fewer and
 * earlier checks. At most 31 checks.
 */
export function cheapestClosed({ checks, costOf, enough }: Search): readonly ProcedureCheck[] | null {
  const costs = checks.map(costOf);
  const needs = checks.map(({ needs: ids }) => bitsOf(checks, ids));
  const members = (chosen: number) => checks.filter((_, place) => chosen & (1 << place));
  const open: Node[] = [{ chosen: 0, cost: 0 }];
  const seen = new Set<number>([0]);
  while (open.length > 0) {
    const { chosen, cost } = takeCheapest(open);
    if (chosen !== 0 && enough(members(chosen))) return members(chosen);
    for (const [place, price] of costs.entries()) {
      const next = chosen | (1 << place);
      if (next === chosen || seen.has(next) || (needs[place]! & chosen) !== needs[place]) continue;
      seen.add(next);
      open.push({ chosen: next, cost: cost + price });
    }
  }
  return null;
}

const bitsOf = (checks: readonly ProcedureCheck[], ids: readonly string[]): number =>
  checks.reduce((bits, { id }, place) => (ids.includes(id) ? bits | (1 << place) : bits), 0);

function takeCheapest(open: Node[]): Node {
  let best = 0;
  for (const [place, node] of open.entries()) if (isBefore(node, open[best]!)) best = place;
  return open.splice(best, 1)[0]!;
}

const isBefore = (a: Node, b: Node): boolean => a.cost < b.cost || (a.cost === b.cost && a.chosen < b.chosen);

/** These checks and all that must come before them, in the order of the procedure. Ids that it does not have are passed over. */
export function closureOf(procedure: Procedure, ids: readonly string[]): readonly ProcedureCheck[] {
  const wanted = new Set<string>();
  const add = (id: string): void => {
    const check = procedure.checks.find((each) => each.id === id);
    if (!check || wanted.has(id)) return;
    wanted.add(id);
    check.needs.forEach(add);
  };
  ids.forEach(add);
  return procedure.checks.filter(({ id }) => wanted.has(id));
}
