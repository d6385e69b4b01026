import { CaseSet } from './case-set.ts';
import firstSteps from './library/first-steps.json' with { type: 'json' };
import hardCases from './library/hard-cases.json' with { type: 'json' };
import ordinaryWork from './library/ordinary-work.json' with { type: 'json' };

/** The sets that Meniscus ships, the easiest first. Changed content needs a new id: cases of the old one are kept in jobs. */
export const SHIPPED_CASE_SETS: readonly CaseSet[] = [firstSteps, ordinaryWork, hardCases].map((each) =>
  CaseSet.parse(each),
);
