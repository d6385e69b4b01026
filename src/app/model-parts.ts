import { applyDefects, DEFECT_KINDS, type DefectKind } from '../../simulators/engine/defects.ts';
import { SOUND_ENGINE } from '../../simulators/engine/engine-parameters.ts';
import { DEFECT_FACTS } from '../training/defect-facts.ts';
import { MODEL_PART_IDS, type ModelPartId } from '../ui/model-layout.ts';
import type { ModelChange, ModelDefect, ModelPart } from '../ui/model-drawing.ts';
import { modelConstants } from './model-constants.ts';
import { PART_WORDS } from './model-words.ts';

/** The constants of a part that a defect at its worst changes, before and after. */
function changesOf(part: ModelPartId, kind: DefectKind): readonly ModelChange[] {
  const worst = modelConstants(part, applyDefects(SOUND_ENGINE, [{ kind, severity: 1 }]));
  return modelConstants(part).flatMap(({ name, value, unit }, at) => {
    const to = worst[at]?.value ?? value;
    return to === value ? [] : [{ name, from: value, to, unit }];
  });
}

/** The defects that act on a part: those that change a constant of it. */
const defectsOf = (part: ModelPartId): readonly ModelDefect[] =>
  DEFECT_KINDS.flatMap((kind) => {
    const changes = changesOf(part, kind);
    const { name, did } = DEFECT_FACTS[kind];
    return changes.length === 0 ? [] : [{ kind, name, words: did, changes }];
  });

/** All parts of the bench engine as the drawing shows them: words, constants of a sound engine, defects. */
export const modelParts = (): readonly ModelPart[] =>
  MODEL_PART_IDS.map((id) => ({
    id,
    ...PART_WORDS[id],
    constants: modelConstants(id),
    defects: defectsOf(id),
  }));
