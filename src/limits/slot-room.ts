import { declareLimit, found, mm, moving } from './limit.js';

/** Least room as drawn, mm. */
const ROOM = 0.5;

/** What passes through a slot must do so inside it, with some room. */
export const slotRoom = declareLimit({
  name: 'slot',
  unit: 'mm',
  scale: 1,
  late: true,
  fields: {
    /** Least room of what passes through a slot to the slot's edge, mm. */
    slotRoom: mm(ROOM),
  },
  // Room is drawn so that the hand may use it up.
  givesWay: ROOM,
  applies: (_, { slots }) => slots,
  bound: (given) => ({ least: given.slotRoom }),
  measure: moving(({ slots }) => {
    const worst = slots.reduce((one, other) => (other.room < one.room ? other : one), slots[0]);
    if (worst === undefined) return 'nothing to judge';
    const { room, passing, panel, pageAngle, at, crosses } = worst;
    const kind = !crosses ? 'does not pass' : room < 0 ? 'runs past a slot' : 'crowds a slot';
    return {
      value: room,
      finding: found(kind, [passing, panel], pageAngle, at === null ? null : { points: [at] }),
    };
  }),
});
