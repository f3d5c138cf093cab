import { type PerspectiveCamera, Spherical, Vector3 } from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import { USUAL_VIEW } from '../../view/picture.js';

const RADIANS = Math.PI / 180;
/** How far a press of a key turns, degrees, and how much nearer it brings. */
const TURN = 6;
const NEARER = 0.88;

/** Looks at a figure from any side: by pointer, wheel and touch (three's OrbitControls), and by keys. */
export class Orbit {
  readonly #controls: OrbitControls;
  readonly #camera: PerspectiveCamera;
  readonly #target: Vector3;
  readonly #distance: number;
  readonly #changed: () => void;

  /**
   * @param target what is looked at, mm
   * @param distance from where, mm
   */
  constructor(
    camera: PerspectiveCamera,
    canvas: HTMLCanvasElement,
    target: readonly [number, number, number],
    distance: number,
    changed: () => void,
  ) {
    this.#camera = camera;
    this.#target = new Vector3(...target);
    this.#distance = distance;
    this.#changed = changed;
    camera.up.set(0, 0, 1);
    this.#controls = new OrbitControls(camera, canvas);
    this.#controls.minDistance = distance / 8;
    this.#controls.maxDistance = distance * 4;
    // The wheel goes to what the pointer is on, which the middle of the book seldom is.
    this.#controls.zoomToCursor = true;
    // The wheel scrolls the page until the figure has been clicked or reached by Tab.
    this.#controls.enableZoom = false;
    canvas.addEventListener('focus', () => {
      this.#controls.enableZoom = true;
    });
    canvas.addEventListener('blur', () => {
      this.#controls.enableZoom = false;
    });
    canvas.addEventListener('keydown', (event) => {
      if (this.#onKey(event.key)) event.preventDefault();
    });
    this.reset();
    this.#controls.addEventListener('change', changed);
  }

  reset(): void {
    const { turn, lift } = USUAL_VIEW;
    this.#controls.target.copy(this.#target);
    this.#goTo(this.#distance, lift, turn);
  }

  /** Comes nearer by some presses of a key; farther if negative. */
  nearer(steps: number): void {
    const { lift, turn, away } = this.#from();
    this.#goTo(away * NEARER ** steps, lift, turn);
  }

  /** Makes the camera ready for a view of this width to height: a narrow one is seen from farther, so that all fits. */
  frame(aspect: number): void {
    this.#camera.aspect = aspect;
    this.#camera.zoom = Math.min(1, aspect / 1.25);
    const away = this.#camera.position.distanceTo(this.#controls.target);
    this.#camera.near = away / 20;
    this.#camera.far = away + 4 * this.#distance;
    this.#camera.updateProjectionMatrix();
    this.#camera.updateMatrixWorld();
  }

  #onKey(key: string): boolean {
    const { lift, turn, away } = this.#from();
    if (key === 'ArrowLeft') this.#goTo(away, lift, turn - TURN);
    else if (key === 'ArrowRight') this.#goTo(away, lift, turn + TURN);
    else if (key === 'ArrowUp') this.#goTo(away, Math.min(89, lift + TURN), turn);
    else if (key === 'ArrowDown') this.#goTo(away, Math.max(-89, lift - TURN), turn);
    else if (key === '+' || key === '=') this.nearer(1);
    else if (key === '-') this.nearer(-1);
    else return false;
    return true;
  }

  /** From where the figure is seen: to the right and up, degrees, and how far, mm. */
  #from(): { away: number; lift: number; turn: number } {
    const offset = this.#camera.position.clone().sub(this.#controls.target);
    // three counts from +y upwards; here z is up and the foot of the page lies to −y.
    const { radius, phi, theta } = new Spherical().setFromVector3(new Vector3(offset.x, offset.z, -offset.y));
    return { away: radius, lift: 90 - phi / RADIANS, turn: theta / RADIANS };
  }

  #goTo(away: number, lift: number, turn: number): void {
    const offset = new Vector3().setFromSphericalCoords(away, (90 - lift) * RADIANS, turn * RADIANS);
    this.#camera.position.set(offset.x, -offset.z, offset.y).add(this.#controls.target);
    this.#controls.update();
    this.#changed();
  }
}
