import type { Line } from '../../geometry/line.js';
import { type Isometry, ontoLine, type Segment, type Shape, segmentOf } from '../../geometry/plane.js';
import type { Assembly } from '../../motion/assembly.js';
import { sideOf } from './card-side.js';
import { type Frames, type Sense, senseOf } from './fold-sense.js';
import type { Tab } from './tabs.js';
import { tongueOf } from './tongue.js';

/** A crease along which two panels of one piece hang together. */
export interface Link {
  readonly joint: number;
  /** For a tab: its owner, then the tab. */
  readonly panels: readonly [number, number];
  /** The crease in each one's own frame. */
  readonly lines: readonly [Segment, Segment];
  /** From the second panel's frame to the first's, both unfolded flat. */
  readonly flat: Isometry;
  /** Seen from the first panel's own face. */
  readonly sense: Sense;
  readonly tab: Tab | null;
  readonly closesLoop: boolean;
}

/** Every crease inside a piece: its folds, its tabs' creases and its tongues'. */
export function linksOf(
  assembly: Assembly,
  cards: readonly Shape[],
  tabs: readonly Tab[],
  frames: Frames,
): Link[] {
  const tabAt = new Map(tabs.map((tab) => [tab.joint, tab]));
  const links: Link[] = [];
  const fold = (
    joint: number,
    panels: readonly [number, number],
    own: readonly [Line, Line],
    closesLoop: boolean,
  ) => {
    const lines = own.map(segmentOf) as [Segment, Segment];
    const [first, second] = panels.map((panel, i) => ({
      panel,
      line: own[i],
      side: sideOf(cards[panel], lines[i]),
    }));
    // Flat, the two lie on either side of the crease: where their frames put them on one side, one is turned over.
    const flat = ontoLine(lines[1], lines[0], first.side === second.side ? -1 : 1);
    links.push({ joint, panels, lines, flat, sense: senseOf(frames, first, second), tab: null, closesLoop });
  };
  assembly.joints.forEach((joint, index) => {
    if (joint.kind === 'slide') {
      const tongue = tongueOf(assembly, index);
      if (tongue !== null) fold(index, tongue.panels, tongue.lines, false);
    }
    if (joint.kind !== 'crease') return;
    const tab = tabAt.get(index);
    if (tab === undefined) {
      if (joint.of === 'fold') fold(index, joint.between, joint.lines, joint.closesLoop);
      return;
    }
    const { owner, panel, line, ownerLine, flip, sense } = tab;
    links.push({
      joint: index,
      panels: [owner, panel],
      lines: [ownerLine, line],
      flat: ontoLine(line, ownerLine, flip),
      sense,
      tab,
      closesLoop: joint.closesLoop,
    });
  });
  return links;
}
