import type { Expression } from './arithmetic.js';

/**
 * Puts named arithmetic in an order in which each can be worked out from those before it (depth-first search).
 * @param circular told the names round a circle, the first repeated at the end; must throw
 */
export function inOrder(
  expressions: ReadonlyMap<string, Expression>,
  circular: (names: string[]) => never,
): [string, Expression][] {
  const ordered = new Map<string, Expression>();
  const under: string[] = [];
  const visit = (name: string): void => {
    const expression = expressions.get(name);
    if (expression === undefined || ordered.has(name)) return;
    if (under.includes(name)) circular([...under.slice(under.indexOf(name)), name]);
    under.push(name);
    for (const used of namesIn(expression)) visit(used);
    under.pop();
    ordered.set(name, expression);
  };
  for (const name of expressions.keys()) visit(name);
  return [...ordered];
}

function namesIn(expression: Expression): string[] {
  if (expression.kind === 'dim') return [expression.name];
  return expression.kind === 'apply' ? expression.to.flatMap(namesIn) : [];
}
