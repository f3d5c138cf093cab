import {
  type Camera,
  PCFShadowMap,
  PerspectiveCamera,
  Raycaster,
  Vector2,
  Vector3,
  WebGLRenderer,
} from 'three';
import type { Figure } from '../../figure/figure.js';
import { worldPoint } from '../../motion/pose.js';
import { pulledApart } from '../../view/apart.js';
import { bowAt } from '../../view/bends.js';
import { withUnit } from '../words/numbers.js';

import { catchesAt, type Shown } from './catches.js';
import type { PageArt } from './data.js';
import { colour, el, onColoursChanged, oncePerFrame } from './dom.js';
import { Orbit } from './orbit.js';
import { type Print, printsOf } from './prints.js';
import { FigureScene, type Palette } from './scene.js';
import type { Look, OnShow, Viewer } from './viewer.js';

const MOST_PIXELS_PER_POINT = 2;
/** From how far the open spread is seen: so many times half its diagonal. */
const AWAY = 3.05;
/** A press that moves less than this is a click, px. */
const STILL = 4;

/** Of a place on the screen (client x and y), the line of sight in a panel's own frame: from where, and its unit way. */
export type Sight = (
  x: number,
  y: number,
) => { readonly from: readonly [number, number, number]; readonly way: readonly [number, number, number] };

/** A panel of a view that lies under the pointer, and where in space. */
interface Hit {
  readonly view: number;
  readonly panel: number;
  readonly at: Vector3;
}

/** How high a label is, px. */
const LABEL = 22;

/** Less than this is drawn and not told, mm. */
const TOLD_BOW = 1;

/** The moving figure in space: drawn only when something changes. */
export class Stage implements Viewer {
  readonly element: HTMLElement;
  #prints: readonly Print[] = [];
  #printed = '[]';
  readonly #canvas = el('canvas', { tabindex: 0, role: 'application' });
  readonly #labels = el('div', { class: 'labels', 'aria-hidden': 'true' });
  readonly #renderer: WebGLRenderer;
  readonly #camera = new PerspectiveCamera(28, 1);
  readonly #orbit: Orbit;
  readonly #scenes: readonly [FigureScene, FigureScene];
  readonly #pointer = { x: 0, y: 0, inside: false };
  readonly #redraw = oncePerFrame(() => this.#draw());
  /** Told which panel was clicked, and where in its own plane, mm. */
  onPick: ((panel: string, point: readonly [number, number]) => void) | null = null;
  /** What a place on a panel is called beside the pointer; the panel's name if nobody says. */
  nameOf: ((panel: string, point: readonly [number, number]) => string) | null = null;
  /** Told whenever it has been drawn. */
  onDraw: (() => void) | null = null;
  #ring: { readonly panel: string; readonly point: readonly [number, number] } | null = null;
  #onShow: readonly OnShow[] = [];
  #catches: readonly (readonly Shown[])[] = [];
  #pageAngle = 180;
  #look: Look = { seeThrough: false, apart: 0, traces: true, bow: 1, pointedAt: null };
  #hovered: Hit | null = null;

  /**
   * Throws where the browser can't draw in space (WebGL 2).
   */
  constructor({ page }: { readonly page: Figure['page'] }) {
    this.#renderer = new WebGLRenderer({ canvas: this.#canvas, antialias: true, alpha: true });
    // To look for faults in each shader would wait for it to be made.
    this.#renderer.debug.checkShaderErrors = false;
    this.#renderer.shadowMap.enabled = true;
    this.#renderer.shadowMap.type = PCFShadowMap;
    this.#renderer.setScissorTest(true);
    const { width, height } = page;
    const reach = Math.hypot(width, height);
    this.#scenes = [new FigureScene(palette(), reach), new FigureScene(palette(), reach)];
    this.#orbit = new Orbit(
      this.#camera,
      this.#canvas,
      [0, height / 2, 0.22 * width],
      AWAY * Math.hypot(width, height / 2),
      this.#redraw,
    );
    this.element = el('div', { class: 'stage' }, this.#canvas, this.#labels);
    new ResizeObserver(() => this.#resize()).observe(this.element);
    this.#canvas.addEventListener('pointermove', (event) => this.#hover(event));
    this.#canvas.addEventListener('pointerleave', () => {
      this.#pointer.inside = false;
      this.#redraw();
    });
    let pressed = [0, 0];
    this.#canvas.addEventListener('pointerdown', ({ clientX, clientY }) => {
      pressed = [clientX, clientY];
    });
    this.#canvas.addEventListener('click', (event) => {
      // A press that has turned the figure is no click.
      if (Math.hypot(event.clientX - pressed[0], event.clientY - pressed[1]) > STILL) return;
      const { left, top } = this.#canvas.getBoundingClientRect();
      Object.assign(this.#pointer, { x: event.clientX - left, y: event.clientY - top });
      this.#pick();
    });
    onColoursChanged(() => {
      for (const scene of this.#scenes) scene.palette = palette();
      this.#redraw();
    });
    addEventListener('beforeprint', () => this.#draw());
  }

  show(figures: readonly OnShow[]): void {
    this.#onShow = figures;
    this.#canvas.setAttribute('aria-label', describe(figures));
    figures.forEach(({ dummy: { motion, traces, printed = [] } }, view) => {
      if (motion === null) return;
      const prints = printed.flatMap((each) => {
        const print = this.#prints[each.art];
        return print === undefined ? [] : [{ ...each, print }];
      });
      this.#scenes[view].show(motion.assembly, motion.bends, traces, prints);
    });
    this.#hovered = null;
    this.#place();
  }

  judge(figures: readonly OnShow[]): void {
    this.#onShow = figures;
    const caught = this.#catches.flat().length;
    this.#findCatches();
    if (caught + this.#catches.flat().length > 0) this.#redraw();
  }

  /** Takes other drawings to print on panels, before these are shown. */
  print(drawings: PageArt['drawings']): void {
    const written = JSON.stringify(drawings);
    if (written === this.#printed) return;
    this.#printed = written;
    for (const { texture } of this.#prints) texture.dispose();
    this.#prints = printsOf(drawings, this.#redraw);
  }

  turnTo(pageAngle: number): void {
    this.#pageAngle = pageAngle;
    this.#place();
  }

  look(look: Look): void {
    this.#look = look;
    for (const scene of this.#scenes) {
      scene.seeThrough = look.seeThrough || this.#ring !== null;
      scene.tracesVisible = look.traces && look.apart === 0;
    }
    this.#place();
  }

  /** Rings a place on a panel of the first figure, and sees through what lies before it; null takes the ring away. */
  ring(place: { readonly panel: string; readonly point: readonly [number, number] } | null): void {
    this.#ring = place;
    for (const scene of this.#scenes) scene.seeThrough = this.#look.seeThrough || place !== null;
    this.#redraw();
  }

  resetView(): void {
    this.#orbit.reset();
  }

  nearer(steps: number): void {
    this.#orbit.nearer(steps);
  }

  /** Where each panel of a view is drawn: its name and a column-major 4×4 matrix. */
  drawn(view: number): { name: string; matrix: number[] }[] {
    const panels = this.#onShow[view]?.dummy.motion?.assembly.panels ?? [];
    return panels.map(({ name }, k) => ({
      name,
      matrix: this.#scenes[view].panels[k].mesh.matrix.toArray(),
    }));
  }

  #place(): void {
    this.#onShow.forEach(({ dummy: { motion, traces } }, view) => {
      if (motion === null) return;
      const pageAngle = Math.max(this.#pageAngle, motion.least);
      const poses = motion.at(pageAngle);
      const marked = traces.map(({ panel, point: [x, y] }) => {
        const at = [0, 0, 0];
        worldPoint(poses, panel, x, y, at);
        return at;
      });
      const scene = this.#scenes[view];
      scene.place(poses, pulledApart(motion.assembly, poses, this.#look.apart), marked);
      scene.bend((bend) => this.#look.bow * bowAt(bend, pageAngle, 'drawn'));
    });
    this.#findCatches();
    this.#pointOut();
    this.#redraw();
  }

  #findCatches(): void {
    this.#catches = this.#onShow.map(({ dummy: { motion, card, counts } }, view) => {
      if (motion === null) return [];
      const pageAngle = Math.max(this.#pageAngle, motion.least);
      const poses = motion.at(pageAngle);
      // A figure that is pulled apart catches nowhere.
      const catches = this.#look.apart > 0 ? [] : catchesAt(motion.assembly, poses, pageAngle, counts, card);
      this.#scenes[view].showCatches(catches);
      return catches;
    });
  }

  #pointOut(): void {
    this.#onShow.forEach(({ dummy: { motion } }, view) => {
      const named = motion?.assembly.panels.findIndex(({ name }) => name === this.#look.pointedAt) ?? -1;
      const hovered = this.#hovered?.view === view ? this.#hovered.panel : null;
      this.#scenes[view].pointedAt = hovered ?? (named < 0 ? null : named);
    });
  }

  #resize(): void {
    const { width, height } = this.element.getBoundingClientRect();
    if (width === 0 || height === 0) return;
    this.#renderer.setPixelRatio(Math.min(devicePixelRatio, MOST_PIXELS_PER_POINT));
    this.#renderer.setSize(width, height, false);
    this.#draw();
  }

  /** The views, side by side where there is more width than height, else one above the other; x, y, width, height. */
  #views(): [number, number, number, number][] {
    const { clientWidth: width, clientHeight: height } = this.#canvas;
    if (this.#onShow.length < 2) return [[0, 0, width, height]];
    if (width > height)
      return [
        [0, 0, width / 2, height],
        [width / 2, 0, width / 2, height],
      ];
    return [
      [0, 0, width, height / 2],
      [0, height / 2, width, height / 2],
    ];
  }

  #draw(): void {
    const { clientHeight } = this.#canvas;
    const labels: HTMLElement[] = [];
    this.#lookUnderPointer();
    this.#views().forEach(([x, y, width, height], view) => {
      const onShow = this.#onShow[view];
      if (onShow === undefined || width === 0 || height === 0) return;
      this.#renderer.setViewport(x, clientHeight - y - height, width, height);
      this.#renderer.setScissor(x, clientHeight - y - height, width, height);
      this.#orbit.frame(width / height);
      if (onShow.dummy.motion === null) {
        this.#renderer.clear();
        labels.push(label(x + width / 2, y + height / 2, `${onShow.name} cannot be built`, 'middle'));
        return;
      }
      this.#renderer.render(this.#scenes[view].scene, this.#camera);
      if (this.#onShow.length > 1) labels.push(label(x + 10, y + 10, onShow.name, 'corner'));
      const { least } = onShow.dummy.motion;
      if (this.#pageAngle < least)
        labels.push(label(x + 10, y + height - 34, `locks at ${withUnit(least, 'degrees')}`, 'catch'));
      for (const { at, words } of this.#bowing(onShow)) {
        const [px, py] = project(at, this.#camera, width, height);
        labels.push(label(x + px + 10, y + py - 10, words, 'bow'));
      }
      // One below the other where they would lie over one another.
      let below = -Infinity;
      const caught = this.#catches[view]
        .slice(0, 3)
        .map(({ depth, at }) => ({ depth, seen: project(at, this.#camera, width, height) }));
      for (const { depth, seen } of caught.sort((a, b) => a.seen[1] - b.seen[1])) {
        below = Math.max(seen[1] - 10, below + LABEL);
        labels.push(label(x + seen[0] + 10, y + below, `catch, ${withUnit(depth, 'mm')} deep`, 'catch'));
      }
    });
    const ringed = this.#ringed();
    if (ringed !== null) {
      const [, , width, height] = this.#views()[0];
      const [px, py] = project(ringed, this.#camera, width, height);
      labels.push(label(px, py, '', 'ring'));
    }
    const named = this.#hoveredName();
    if (named !== null) labels.push(label(this.#pointer.x + 14, this.#pointer.y + 14, named, 'name'));
    this.#labels.replaceChildren(...labels);
    this.onDraw?.();
  }

  /** Where a point of a panel of the first figure is seen, px from the top left of the stage; null if it is not there. */
  seenAt(panel: string, [x, y]: readonly [number, number]): readonly [number, number] | null {
    const mesh = this.#meshOf(panel);
    const [, , width, height] = this.#views()[0];
    if (mesh === null || width === 0 || height === 0) return null;
    this.#orbit.frame(width / height);
    const { x: px, y: py, z: pz } = new Vector3(x, y, 0).applyMatrix4(mesh.matrix);
    const [sx, sy] = project([px, py, pz], this.#camera, width, height);
    return [sx, sy];
  }

  /** Looks at a panel of the first figure as it lies now, wherever it goes then; null if it is not there. */
  sightOn(panel: string): Sight | null {
    const inverse = this.#meshOf(panel)?.matrix.clone().invert();
    if (inverse === undefined) return null;
    return (clientX, clientY) => {
      const { left, top } = this.#canvas.getBoundingClientRect();
      const { origin, direction } = this.#rayAt(clientX - left, clientY - top, this.#views()[0]);
      const from = origin.clone().applyMatrix4(inverse);
      const way = direction.clone().transformDirection(inverse);
      return { from: [from.x, from.y, from.z], way: [way.x, way.y, way.z] };
    };
  }

  #meshOf(panel: string) {
    const k = this.#onShow[0]?.dummy.motion?.assembly.panels.findIndex(({ name }) => name === panel) ?? -1;
    return this.#scenes[0].panels[k]?.mesh ?? null;
  }

  /** What bows far enough to be told, and where. */
  #bowing({ dummy: { motion } }: OnShow): { at: [number, number, number]; words: string }[] {
    if (motion === null || this.#look.apart > 0) return [];
    const pageAngle = Math.max(this.#pageAngle, motion.least);
    const poses = motion.at(pageAngle);
    const times = this.#look.bow === 1 ? '' : `, drawn ${this.#look.bow} times as far`;
    return motion.bends.flatMap((bend) => {
      const bow = bowAt(bend, pageAngle);
      if (bow < TOLD_BOW) return [];
      const at: [number, number, number] = [0, 0, 0];
      worldPoint(poses, bend.panel, bend.at[0], bend.at[1], at);
      const { name } = motion.assembly.panels[bend.panel];
      return [{ at, words: `${name} bows ${withUnit(bow, 'mm')}${times}` }];
    });
  }

  #hover(event: PointerEvent): void {
    const { left, top } = this.#canvas.getBoundingClientRect();
    Object.assign(this.#pointer, {
      x: event.clientX - left,
      y: event.clientY - top,
      inside: event.buttons === 0,
    });
    this.#redraw();
  }

  /** Finds the panel under the pointer. */
  #lookUnderPointer(): void {
    const before = this.#hovered;
    this.#hovered = this.#pointer.inside ? this.#hit() : null;
    if (before?.view !== this.#hovered?.view || before?.panel !== this.#hovered?.panel) this.#pointOut();
  }

  #ringed(): readonly [number, number, number] | null {
    const motion = this.#onShow[0]?.dummy.motion;
    const panel = motion?.assembly.panels.findIndex(({ name }) => name === this.#ring?.panel) ?? -1;
    if (!motion || panel < 0 || this.#ring === null || this.#look.apart > 0) return null;
    const at: [number, number, number] = [0, 0, 0];
    const poses = motion.at(Math.max(this.#pageAngle, motion.least));
    worldPoint(poses, panel, this.#ring.point[0], this.#ring.point[1], at);
    return at;
  }

  #pick(): void {
    this.ring(null);
    const found = this.#onPanel(this.#hit());
    if (found !== null) this.onPick?.(...found);
  }

  /** The panel that was hit, and where in its own plane. */
  #onPanel(hit: Hit | null): [panel: string, point: readonly [number, number]] | null {
    const panel = hit && this.#onShow[hit.view].dummy.motion?.assembly.panels[hit.panel];
    if (!hit || !panel) return null;
    const { matrix } = this.#scenes[hit.view].panels[hit.panel].mesh;
    const { x, y } = hit.at.clone().applyMatrix4(matrix.clone().invert());
    return [panel.name, [x, y]];
  }

  #hit(): Hit | null {
    const { x: px, y: py } = this.#pointer;
    const view = this.#views().findIndex(([x, y, w, h]) => px >= x && px < x + w && py >= y && py < y + h);
    if (view < 0 || !this.#onShow[view]?.dummy.motion) return null;
    const { panels } = this.#scenes[view];
    const ray = this.#rayAt(px, py, this.#views()[view]);
    const [nearest] = new Raycaster(ray.origin, ray.direction).intersectObjects(
      panels.map(({ mesh }) => mesh),
      false,
    );
    const panel = panels.findIndex(({ mesh }) => mesh === nearest?.object);
    return panel < 0 || nearest === undefined ? null : { view, panel, at: nearest.point };
  }

  /** The line of sight at a place of the canvas, within a view. */
  #rayAt(px: number, py: number, [x, y, width, height]: readonly [number, number, number, number]) {
    this.#orbit.frame(width / height);
    const caster = new Raycaster();
    caster.setFromCamera(new Vector2((2 * (px - x)) / width - 1, 1 - (2 * (py - y)) / height), this.#camera);
    return caster.ray;
  }

  #hoveredName(): string | null {
    const found = this.#onPanel(this.#hovered);
    return found && (this.nameOf?.(...found) ?? found[0]);
  }
}

function palette(): Palette {
  return {
    card: [0, 1, 2, 3, 4].map((tone) => colour(`card-${tone}`)),
    edge: colour('edge'),
    accent: colour('mark'),
  };
}

function describe(figures: readonly OnShow[]): string {
  const names = figures.map(({ name }) => name).join(' and, beside it, ');
  return `The moving figure: ${names}. Arrow keys turn it, plus and minus bring it nearer and farther.`;
}

function project(at: readonly [number, number, number], camera: Camera, width: number, height: number) {
  const { x, y } = new Vector3(...at).project(camera);
  return [((x + 1) / 2) * width, ((1 - y) / 2) * height];
}

function label(x: number, y: number, text: string, kind: string): HTMLElement {
  const element = el('span', { class: kind }, text);
  element.style.transform = `translate(${Math.round(x)}px, ${Math.round(y)}px)`;
  return element;
}
