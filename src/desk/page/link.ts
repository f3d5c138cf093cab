import type { Request, Told } from '../messages.js';

/** How long until a lost desk is sought again, ms. */
const AGAIN = 700;

/** The way to the desk: what is asked before it stands, or while it is lost, goes once it stands. */
export class Link {
  #socket: WebSocket | null = null;
  readonly #waiting: Request[] = [];
  readonly #hear: (told: Told) => void;
  readonly #stands: (standing: boolean) => void;

  constructor(hear: (told: Told) => void, stands: (standing: boolean) => void) {
    this.#hear = hear;
    this.#stands = stands;
    this.#open();
  }

  send(asked: Request): void {
    if (this.#socket?.readyState === WebSocket.OPEN) this.#socket.send(JSON.stringify(asked));
    else this.#waiting.push(asked);
  }

  #open(): void {
    const address = new URL('socket', location.href);
    address.protocol = 'ws:';
    const socket = new WebSocket(address);
    this.#socket = socket;
    socket.addEventListener('open', () => {
      this.#stands(true);
      for (const asked of this.#waiting.splice(0)) this.send(asked);
    });
    socket.addEventListener('message', ({ data }) => this.#hear(JSON.parse(String(data))));
    socket.addEventListener('close', () => {
      this.#stands(false);
      setTimeout(() => this.#open(), AGAIN);
    });
  }
}
