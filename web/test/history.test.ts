import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type History, act, begin, redo, undo } from '../src/job/history';

type Move = { kind: 'act'; value: number } | { kind: 'undo' } | { kind: 'redo' };

const move: fc.Arbitrary<Move> = fc.oneof(
  fc.record({ kind: fc.constant('act' as const), value: fc.integer() }),
  fc.record({ kind: fc.constant('undo' as const) }),
  fc.record({ kind: fc.constant('redo' as const) }),
);

function play(history: History<number>, step: Move): History<number> {
  if (step.kind === 'act') return act(history, 'step', step.value);
  return step.kind === 'undo' ? undo(history) : redo(history);
}

/** The plainest model of a history: a list of values and a place in it. */
function model(first: number, moves: Move[]): number {
  let [values, at] = [[first], 0];
  for (const step of moves) {
    if (step.kind === 'act') [values, at] = [[...values.slice(0, at + 1), step.value], at + 1];
    else at = step.kind === 'undo' ? Math.max(0, at - 1) : Math.min(values.length - 1, at + 1);
  }
  return values[at] ?? Number.NaN;
}

test('any row of steps ends where a list with a place in it ends', () => {
  fc.assert(fc.property(fc.integer(), fc.array(move, { maxLength: 60 }), (first, moves) => moves.reduce(play, begin(first)).now === model(first, moves)));
});

test('everything can be undone, and then done again', () => {
  fc.assert(
    fc.property(fc.integer(), fc.array(fc.integer(), { maxLength: 40 }), (first, values) => {
      const done = values.reduce((history, value) => act(history, 'step', value), begin(first));
      const undone = values.reduce((history) => undo(history), done);
      const again = values.reduce((history) => redo(history), undone);
      return undone.now === first && undone.done.length === 0 && again.now === done.now && again.undone.length === 0;
    }),
  );
});

test('nothing to undo changes nothing', () => {
  const history = begin(1);
  expect(undo(history)).toBe(history);
  expect(redo(history)).toBe(history);
});
