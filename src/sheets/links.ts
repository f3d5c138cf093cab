import type { Assembly } from '../motion/assembly.js';
import { sideOf } from './card-side.js';
import { type Frames, type Sense, senseOf } from './fold-sense.js';
import { type Isometry, ontoLine, type Segment, type Shape, segmentOf } from './plane.js';
import type { Tab } from './tabs.js';

/** A crease along which two panels of one piece hang together. */
export interface Link {
  readonly joint: number;
  /** For a tab: its owner, then the tab. */
  readonly panels: readonly [number, number];
  /** The crease in each one's own frame. */
  readonly lines: readonly [Segment, Segment];
  /** From the second panel's frame to the first's, both unfolded flat. */
  readonly flat: Isometry;
  readonly sense: Sense;
  readonly tab: Tab | null;
  readonly closesLoop: boolean;
}

/** Every crease inside a piece: its folds, and its tabs' creases. */
export function linksOf(
  assembly: Assembly,
  cards: readonly Shape[],
  tabs: readonly Tab[],
  frames: Frames,
): Link[] {
  const tabAt = new Map(tabs.map((tab) => [tab.joint, tab]));
  const links: Link[] = [];
  assembly.joints.forEach((joint, index) => {
    if (joint.kind !== 'crease') return;
    const { closesLoop } = joint;
    const tab = tabAt.get(index);
    if (tab !== undefined) {
      const { owner, panel, line, ownerLine, flip, sense } = tab;
      const flat = ontoLine(line, ownerLine, flip);
      links.push({
        joint: index,
        panels: [owner, panel],
        lines: [ownerLine, line],
        flat,
        sense,
        tab,
        closesLoop,
      });
    } else if (joint.of === 'fold') {
      const panels = joint.between;
      const lines = joint.lines.map(segmentOf) as [Segment, Segment];
      const [first, second] = panels.map((panel, i) => ({
        panel,
        line: joint.lines[i],
        side: sideOf(cards[panel], lines[i]),
      }));
      const sense = senseOf(frames, first, second);
      links.push({
        joint: index,
        panels,
        lines,
        flat: ontoLine(lines[1], lines[0], 1),
        sense,
        tab: null,
        closesLoop,
      });
    }
  });
  return links;
}
