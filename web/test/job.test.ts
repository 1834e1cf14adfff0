import fc from 'fast-check';
import { expect, test } from 'vitest';
import { addBlock, blocks, cleared, cornersOf, kindOf, newJob, removeCorner, setEdge, setKind, splitSide } from '../src/job/job';
import { addLeg, beginDraft, closed, point, takeBack } from '../src/measure/draft';
import { planPoint, viewOf } from '../src/measure/view';

const NAMES = { house: 'house', wing: 'wing' };
const square = () => addBlock(newJob('Trial'), [[0, 0], [20, 0], [20, 10], [0, 10]], NAMES);

test('a new block is a hip roof of one pitch, with a name of its own', () => {
  const two = addBlock(square(), [[0, 0], [5, 0], [5, 5]], NAMES);
  expect(blocks(two).map((block) => block.name)).toEqual(['house', 'wing']);
  expect(blocks(two)[1]?.edges).toEqual([{ eave: '8/12' }, { eave: '8/12' }, { eave: '8/12' }]);
});

test('a kind of side leaves nothing of the other kinds', () => {
  const hung = setEdge(square(), 0, 1, { overhang: '8 in', breaks: [{ rise: '9 ft', pitch: '4/12' }] });
  expect(blocks(setKind(hung, 0, 1, 'gable'))[0]?.edges[1]).toEqual({ gable: true, overhang: '8 in' });
  expect(blocks(setKind(hung, 0, 1, 'wall'))[0]?.edges[1]).toEqual({ wall: true });
  expect(kindOf({ gable: true })).toBe('gable');
});

test('an emptied field is unknown, not zero', () => {
  expect(cleared({ eave: '8/12', overhang: '' })).toEqual({ eave: '8/12' });
});

test('a new corner and its removal leave the job as it was, and no edit changes the old job', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 3 }), (side) => {
      const before = square();
      const copy = JSON.stringify(before);
      const after = removeCorner(splitSide(before, 0, side, ['5 ft', '5 ft']), 0, side + 1);
      return JSON.stringify(after) === copy && JSON.stringify(before) === copy;
    }),
  );
});

test('corners that cannot be read draw nothing', () => {
  expect(cornersOf({ name: '', edges: [], outline: [['4 ft', 1], ['x', 2]] }, 'ft')).toEqual([]);
  expect(cornersOf({ name: '', edges: [], outline: [['4 ft', 1]] }, 'ft')).toEqual([[48, 12]]);
});

test('a leg taken back leaves the draft as it was', () => {
  const before = point(addLeg(beginDraft(), { toward_deg: 0, length: "24' 9\"" }), -90);
  expect(before.toward_deg).toBe(270);
  expect(takeBack(addLeg(before, { toward_deg: 270, length: '3 ft' }))).toEqual(before);
});

test('a walk that comes back to its first corner names it once', () => {
  expect(closed([['0"', '0"'], ["4' 0\"", '0"'], ["4' 0\"", "4' 0\""], ['0"', '0"']], 'ft')).toHaveLength(3);
  expect(closed([['0"', '0"'], ["4' 0\"", '0"'], ["4' 0\"", "4' 0\""]], 'ft')).toHaveLength(3);
});

test('the middle of the screen is the middle of the plan', () => {
  const view = viewOf([[0, 0], [400, 100]], 800, 600);
  const frame = { left: 10, top: 20, width: 800, height: 600 } as DOMRect;
  const [x, y] = planPoint(view, frame, 410, 320);
  expect(x).toBeCloseTo(200, 9);
  expect(y).toBeCloseTo(50, 9);
});
