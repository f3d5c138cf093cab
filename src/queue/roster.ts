import type { Redis } from 'ioredis';
import type * as z from 'zod';
import { type LenderMessage, lenderMessage, messageIn, type StudyMessage, studyMessage } from './messages.js';
import { inPlace, PREFIX } from './redis.js';

/** Whoever has not been heard of for so long is gone, ms. */
const GONE = 15_000;
/** So many are looked at, whatever else is kept there. */
const MOST = 4096;

/** Who is there, of one sort: each keeps a message of its own in Redis, which fades when it is not renewed. */
class Roster<Message extends { id: string }> {
  readonly #redis: Redis;
  readonly #sort: string;
  readonly #schema: z.ZodType<Message>;

  constructor(redis: Redis, sort: string, schema: z.ZodType<Message>) {
    this.#redis = redis;
    this.#sort = sort;
    this.#schema = schema;
  }

  async enter(message: Message): Promise<void> {
    await this.#redis
      .multi()
      .set(this.#key(message.id), JSON.stringify(message), 'PX', GONE)
      .sadd(this.#index, message.id)
      .exec();
  }

  async leave(id: string): Promise<void> {
    await this.#redis.multi().del(this.#key(id)).srem(this.#index, id).exec();
  }

  async has(id: string): Promise<boolean> {
    return (await this.#redis.exists(this.#key(id))) === 1;
  }

  /** All that are there, by their ids. What is no such message is passed over. */
  async all(): Promise<Map<string, Message>> {
    const ids = await inPlace(this.#redis, this.#index, () => this.#redis.srandmember(this.#index, MOST));
    const found = new Map<string, Message>();
    if (ids.length === 0) return found;
    const texts = await this.#redis.mget(ids.map((id) => this.#key(id)));
    const faded = ids.filter((_, i) => texts[i] === null);
    if (faded.length > 0) await this.#redis.srem(this.#index, faded);
    ids.forEach((id, i) => {
      const message = messageIn(this.#schema, texts[i]);
      if (message?.id === id) found.set(id, message);
    });
    return new Map([...found].sort(([a], [b]) => (a < b ? -1 : 1)));
  }

  get #index(): string {
    return `${PREFIX}:${this.#sort}`;
  }

  #key(id: string): string {
    return `${PREFIX}:${this.#sort}:${id}`;
  }
}

export const lendersIn = (redis: Redis): Roster<LenderMessage> => new Roster(redis, 'lenders', lenderMessage);
export const studiesIn = (redis: Redis): Roster<StudyMessage> => new Roster(redis, 'studies', studyMessage);

/** Where a lender finds why a study takes nothing more from it. */
export const refusalKey = (lender: string): string => `${PREFIX}:refused:${lender}`;
/** Where the answers to a study's parcels are. */
export const answersKey = (study: string): string => `${PREFIX}:answers:${study}`;
/** Where a figure is, by the SHA-256 of its message. */
export const figureKey = (sha256: string): string => `${PREFIX}:figure:${sha256}`;
/** The queue on which parcels for machines of one likeness lie. */
export const queueName = (mark: string): string => `parcels-${mark}`;
