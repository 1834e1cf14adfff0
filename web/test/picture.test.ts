import { expect, test } from 'vitest';
import { type Picture, scaled, shifted } from '../src/measure/picture';

const picture: Picture = { blob: new Blob(), width: 100, height: 50, at: [0, 100], scale: 2 };

test('a picture is scaled about the first point, which stays', () => {
  // Two points 50 in apart that are 100 in apart: the picture doubles about (50, 50).
  const twice = scaled(picture, [50, 50], 2);
  expect(twice).toMatchObject({ at: [-50, 150], scale: 4 });
  expect(scaled(twice, [50, 50], 0.5)).toMatchObject({ at: [0, 100], scale: 2 });
});

test('and shifted', () => {
  expect(shifted(picture, [6, -6]).at).toEqual([6, 94]);
});
