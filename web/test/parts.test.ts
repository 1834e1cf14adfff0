import { expect, test } from 'vitest';
import { newJob } from '../src/job/job';
import { addDormer, addOpening, parts, removePart, setPart } from '../src/job/parts';
import { silence, speak } from '../src/check/silence';

const job = newJob('Trial');

test('an opening has one place and the sizes of its kind', () => {
  const one = addOpening(job, 'chimney', ['4 ft', '5 ft'], 'chimney');
  expect(parts(one, 'opening')).toEqual([{ name: 'chimney', kind: 'chimney', at: ['4 ft', '5 ft'], width: '36 in', height: '24 in' }]);
  const pipe = setPart(one, 'opening', 0, { kind: 'pipe' });
  expect(parts(pipe, 'opening')).toEqual([{ name: 'chimney', kind: 'pipe', at: ['4 ft', '5 ft'], diameter: '4 in' }]);
  const placed = setPart(one, 'opening', 0, { plane: 'house.0' });
  expect(parts(placed, 'opening')[0]).toEqual({ name: 'chimney', kind: 'chimney', plane: 'house.0', up: '6 ft', across: '6 ft', width: '36 in', height: '24 in' });
  expect(parts(setPart(placed, 'opening', 0, { up: '7 ft' }), 'opening')[0]).toMatchObject({ plane: 'house.0', up: '7 ft', across: '6 ft' });
});

test('names differ, and what is removed leaves no trace', () => {
  const two = addDormer(addDormer(job, 'house.0', '10 ft', 'dormer'), 'house.0', '20 ft', 'dormer');
  expect(parts(two, 'dormer').map((part) => part.name)).toEqual(['dormer', 'dormer 2']);
  expect(removePart(removePart(two, 'dormer', 0), 'dormer', 0)).toEqual(job);
  expect(parts(setPart(two, 'dormer', 1, { pitch: '6/12' }), 'dormer')[1]).toMatchObject({ pitch: '6/12', on: 'house.0' });
});

test('a finding that is accepted and no longer accepted leaves the job as it was', () => {
  const accepted = silence(job, 'gap-too-tight', 'measured twice');
  expect(accepted.silence).toEqual([{ rule: 'gap-too-tight', reason: 'measured twice' }]);
  expect(speak(accepted, 'gap-too-tight')).toEqual(job);
});
