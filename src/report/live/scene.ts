import {
  BufferAttribute,
  BufferGeometry,
  Color,
  DirectionalLight,
  Group,
  HemisphereLight,
  Line,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  Scene,
  SphereGeometry,
} from 'three';
import type { Assembly } from '../../motion/assembly.js';
import { POSE } from '../../motion/pose.js';
import type { Bend } from '../../view/bends.js';
import { type BentSlab, bendTo, bentSlab } from '../../view/bent.js';
import { layersOf } from '../../view/layers.js';
import { slabOf } from '../../view/slab.js';
import type { Shown } from './catches.js';
import { type OnPanel, onPrint } from './prints.js';
import type { Trace } from './traces.js';

/** Colours of what is drawn, as CSS has them. */
export interface Palette {
  /** Card, from the page to the topmost pieces. */
  readonly card: readonly string[];
  readonly edge: string;
  readonly accent: string;
}

interface DrawnPanel {
  readonly mesh: Mesh<BufferGeometry, MeshLambertMaterial>;
  readonly edges: LineSegments<BufferGeometry, LineBasicMaterial>;
  /** What is printed on it. */
  readonly prints: readonly Mesh<BufferGeometry, MeshLambertMaterial>[];
  /** What of it bends; null for what stays flat. */
  readonly bent: BentSlab | null;
}

const SEE_THROUGH = 0.32;

/** One figure to look at: its panels as card, the paths of its marked points, its catches. In mm, the gutter along y. */
export class FigureScene {
  readonly scene = new Scene();
  panels: readonly DrawnPanel[] = [];
  #assembly: Pick<Assembly, 'panels'> | null = null;
  #palette: Palette;
  #seeThrough = false;
  #pointedAt: number | null = null;
  #caught: ReadonlySet<number> = new Set();
  readonly #figure = new Group();
  /** A panel's meshes and materials serve one figure after the other: of new ones all shaders would be made anew. */
  readonly #stock: BlankPanel[] = [];
  readonly #traces = new Group();
  readonly #catches = new Group();
  readonly #ball = new SphereGeometry(1, 16, 12);
  readonly #ballMaterial = new MeshBasicMaterial({ depthTest: false, transparent: true });
  readonly #traceMaterial = new LineBasicMaterial({ depthTest: false, transparent: true });

  constructor(palette: Palette, reach: number) {
    this.#palette = palette;
    const sun = new DirectionalLight(0xffffff, 1.9);
    sun.position.set(-0.9 * reach, -1.1 * reach, 2.2 * reach);
    sun.castShadow = true;
    sun.shadow.mapSize.set(1024, 1024);
    const { camera } = sun.shadow;
    camera.left = camera.bottom = -1.3 * reach;
    camera.right = camera.top = 1.3 * reach;
    camera.far = 5 * reach;
    sun.shadow.normalBias = 0.6;
    sun.shadow.intensity = 0.55;
    this.scene.add(
      new HemisphereLight(0xffffff, 0xd8cdb8, 2.0),
      sun,
      this.#figure,
      this.#traces,
      this.#catches,
    );
    sun.target.position.set(0, reach / 2, 0);
    this.scene.add(sun.target);
  }

  /** Draws another figure. */
  show(
    assembly: Pick<Assembly, 'panels'>,
    bends: readonly Bend[],
    traces: readonly Trace[],
    art: readonly OnPanel[] = [],
  ): void {
    this.#clear();
    this.#assembly = assembly;
    const layers = layersOf(assembly);
    this.panels = assembly.panels.map((panel, k) => {
      const bend = bends.flatMap((each) => {
        const along = each.along.find((one) => one.panel === k);
        return along === undefined ? [] : [bentSlab(panel, layers[k], each, along)];
      });
      const bent = bend[0] ?? null;
      const slab = bent?.drawn ?? slabOf(panel, layers[k].low, layers[k].high);
      const face = new BufferGeometry();
      face.setAttribute('position', new BufferAttribute(slab.positions, 3));
      face.setAttribute('normal', new BufferAttribute(slab.normals, 3));
      face.setIndex(new BufferAttribute(slab.indices, 1));
      if (this.#stock.length === k) this.#stock.push(blankPanel());
      const { mesh, edges, printed } = this.#stock[k];
      mesh.geometry = face;
      edges.geometry = new BufferGeometry().setAttribute('position', new BufferAttribute(slab.edges, 3));
      // Of two that lie in one plane, always the same one shows.
      const depth = 2 * (assembly.panels.length - k);
      mesh.material.polygonOffsetUnits = depth;
      const prints = art
        .filter((each) => each.panel === k)
        .map((each, i) => {
          if (printed.length === i) printed.push(blankPrint(i));
          return print(printed[i], each, face, depth - i - 1);
        });
      // They go where the panel goes.
      mesh.clear();
      for (const each of prints) mesh.add(each);
      this.#figure.add(mesh, edges);
      return { mesh, edges, prints, bent };
    });
    for (const { path } of traces) {
      const line = new BufferGeometry().setAttribute('position', new BufferAttribute(path, 3));
      const mark = this.#marker(1.6);
      this.#traces.add(new Line(line, this.#traceMaterial), mark);
    }
    this.#colourAll();
  }

  /**
   * Puts every panel in its place.
   * @param shifts x, y, z for each panel, mm
   * @param marked where the marked points are now, in the order of the traces
   */
  place(poses: Float64Array, shifts: Float64Array, marked: readonly (readonly number[])[]): void {
    this.panels.forEach(({ mesh, edges }, k) => {
      const [a, b, c, x, d, e, f, y, g, h, i, z] = poses.subarray(k * POSE, (k + 1) * POSE);
      const [dx, dy, dz] = shifts.subarray(3 * k, 3 * k + 3);
      mesh.matrix.set(a, b, c, x + dx, d, e, f, y + dy, g, h, i, z + dz, 0, 0, 0, 1);
      edges.matrix.copy(mesh.matrix);
      mesh.matrixWorldNeedsUpdate = edges.matrixWorldNeedsUpdate = true;
    });
    marked.forEach(([x, y, z], t) => {
      this.#traces.children[2 * t + 1].position.set(x, y, z);
    });
  }

  /** Bends what bows. @param bowOf how far each bend is drawn, mm */
  bend(bowOf: (bend: Bend) => number): void {
    for (const { mesh, edges, prints, bent } of this.panels) {
      if (bent === null) continue;
      bendTo(bent, bowOf(bent.bend));
      for (const { geometry } of [mesh, edges, ...prints]) {
        for (const name of ['position', 'normal'])
          if (geometry.hasAttribute(name)) geometry.getAttribute(name).needsUpdate = true;
        // Where it was does not bound where it is.
        geometry.boundingSphere = geometry.boundingBox = null;
      }
    }
  }

  showCatches(catches: readonly Shown[]): void {
    this.#catches.clear();
    for (const { at } of catches) {
      const mark = this.#marker(2.6);
      mark.position.set(...at);
      this.#catches.add(mark);
    }
    this.#caught = new Set(catches.flatMap(({ between }) => between));
    this.#colourAll();
  }

  set seeThrough(on: boolean) {
    this.#seeThrough = on;
    this.#colourAll();
  }

  set tracesVisible(on: boolean) {
    this.#traces.visible = on;
  }

  /** The panel to bring out, or null. */
  set pointedAt(panel: number | null) {
    this.#pointedAt = panel;
    this.#colourAll();
  }

  set palette(palette: Palette) {
    this.#palette = palette;
    this.#colourAll();
  }

  #marker(radius: number): Mesh {
    const ball = new Mesh(this.#ball, this.#ballMaterial);
    ball.scale.setScalar(radius);
    ball.renderOrder = 1;
    return ball;
  }

  #colourAll(): void {
    const { card, edge, accent } = this.#palette;
    const pieces = [...new Set(this.#assembly?.panels.map(({ piece }) => piece))];
    this.panels.forEach(({ mesh, edges, prints }, k) => {
      const order = pieces.indexOf(this.#assembly?.panels[k].piece ?? '');
      const { material } = mesh;
      material.color.set(order === 0 ? card[0] : card[1 + ((order - 1) % (card.length - 1))]);
      material.emissive = new Color(k === this.#pointedAt ? accent : 0x000000);
      material.emissiveIntensity = 0.45;
      if (material.transparent !== this.#seeThrough) material.needsUpdate = true;
      material.transparent = this.#seeThrough;
      material.opacity = this.#seeThrough ? SEE_THROUGH : 1;
      material.depthWrite = !this.#seeThrough;
      mesh.castShadow = !this.#seeThrough;
      for (const print of prints) {
        print.material.emissive = material.emissive;
        print.material.emissiveIntensity = material.emissiveIntensity;
        print.material.opacity = material.opacity;
      }
      edges.material.color.set(this.#caught.has(k) || k === this.#pointedAt ? accent : edge);
    });
    this.#traceMaterial.color.set(accent);
    this.#ballMaterial.color.set(accent);
  }

  #clear(): void {
    for (const { mesh, edges, prints } of this.panels)
      for (const { geometry } of [mesh, edges, ...prints]) geometry.dispose();
    for (const trace of this.#traces.children) if (trace instanceof Line) trace.geometry.dispose();
    this.#figure.clear();
    this.#traces.clear();
    this.#catches.clear();
    this.#caught = new Set();
  }
}

interface BlankPanel {
  readonly mesh: Mesh<BufferGeometry, MeshLambertMaterial>;
  readonly edges: LineSegments<BufferGeometry, LineBasicMaterial>;
  readonly printed: Mesh<BufferGeometry, MeshLambertMaterial>[];
}

function blankPanel(): BlankPanel {
  // Faces stand back behind edges.
  const mesh = new Mesh(
    new BufferGeometry(),
    new MeshLambertMaterial({ polygonOffset: true, polygonOffsetFactor: 1 }),
  );
  const edges = new LineSegments(new BufferGeometry(), new LineBasicMaterial());
  mesh.castShadow = mesh.receiveShadow = true;
  mesh.matrixAutoUpdate = edges.matrixAutoUpdate = false;
  return { mesh, edges, printed: [] };
}

function blankPrint(order: number): Mesh<BufferGeometry, MeshLambertMaterial> {
  const material = new MeshLambertMaterial({
    transparent: true,
    depthWrite: false,
    polygonOffset: true,
    polygonOffsetFactor: 1,
  });
  const mesh = new Mesh(new BufferGeometry(), material);
  mesh.receiveShadow = true;
  mesh.renderOrder = order;
  return mesh;
}

/** Art on one face of a panel's card: the same triangles, with the drawing on them. */
function print(
  mesh: Mesh<BufferGeometry, MeshLambertMaterial>,
  art: OnPanel,
  card: BufferGeometry,
  depth: number,
): Mesh<BufferGeometry, MeshLambertMaterial> {
  const face = new BufferGeometry();
  const points = card.getAttribute('position') as BufferAttribute;
  const normals = card.getAttribute('normal') as BufferAttribute;
  face.setAttribute('position', points);
  face.setAttribute('normal', normals);
  face.setAttribute('uv', new BufferAttribute(onPrint(points.array as Float32Array, art), 2));
  const all = card.getIndex()?.array ?? [];
  // The triangles of that face: those whose corners look its way.
  const own = Array.from(all).filter((_, i) => normals.getZ(all[i - (i % 3)]) * art.face > 0.5);
  face.setIndex(own);
  mesh.geometry = face;
  mesh.material.map = art.print.texture;
  mesh.material.polygonOffsetUnits = depth;
  return mesh;
}
