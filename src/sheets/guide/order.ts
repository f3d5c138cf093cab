/** Something to be done, and what must, or had better, have been done before it. */
export interface Task {
  readonly name: string;
  readonly after: readonly Task[];
  /** What had better come before, most important first: the last are given up first where all can't be had. */
  readonly better?: readonly (readonly Task[])[];
  /** Of tasks that are free to be done, the one of lowest rank comes first. */
  readonly rank: number;
}

/**
 * Puts tasks in an order in which everything that must come before does (Kahn 1962), and as much as can be of what had
 * better come before.
 * @returns the tasks in order, and those that wait for one another in a circle and can never be done
 */
export function inOrder<T extends Task>(tasks: readonly T[]): { order: T[]; circle: T[] } {
  const order: T[] = [];
  const done = new Set<Task>();
  const waiting = [...tasks].sort((a, b) => a.rank - b.rank);
  const levels = Math.max(0, ...tasks.map(({ better }) => better?.length ?? 0));
  while (waiting.length > 0) {
    let next = -1;
    for (let kept = levels; kept >= 0 && next < 0; kept--)
      next = waiting.findIndex(
        ({ after, better }) =>
          after.every((task) => done.has(task)) &&
          (better ?? []).slice(0, kept).every((level) => level.every((task) => done.has(task))),
      );
    if (next < 0) return { order, circle: circleIn(waiting) };
    const [task] = waiting.splice(next, 1);
    done.add(task);
    order.push(task);
  }
  return { order, circle: [] };
}

/** From any waiting task back along what it waits for, until one comes round again. */
function circleIn<T extends Task>(waiting: readonly T[]): T[] {
  const path: T[] = [];
  let at: T | undefined = waiting[0];
  while (at !== undefined && !path.includes(at)) {
    path.push(at);
    const { after }: T = at;
    at = waiting.find((task) => after.includes(task));
  }
  return at === undefined ? path : path.slice(path.indexOf(at)).reverse();
}
