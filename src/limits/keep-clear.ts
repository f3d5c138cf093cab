import { declareLimit, found, moving, NOTHING } from './limit.js';

/** Nothing may come into the spaces that the figure file keeps clear. */
export const keepsClear = declareLimit({
  name: 'keep clear',
  unit: 'mm',
  scale: 1,
  fields: {},
  applies: (_, { keepClear }) => keepClear,
  bound: () => ({ most: 0 }),
  measure: moving(({ intrusion }) =>
    intrusion === null || intrusion.space === null
      ? NOTHING
      : {
          value: intrusion.value,
          finding: found('enters a space', [intrusion.panel], intrusion.pageAngle, {
            space: intrusion.space,
          }),
        },
  ),
});
