import { expect, test } from 'vitest';
import { direction } from './direction.ts';
import { intersection, lineThrough } from './line.ts';
import { distance, midpoint, point } from './point.ts';

const onFilm = point('film', 1, 2);
const inLimb = point('coronal', 3, 4);
const inPatient = point('femoral', 3, 4);

test('two frames cannot be mixed: the compiler refuses it', () => {
  // Each line below fails the type check if the frames could be mixed, for then the expected error is missing.
  // @ts-expect-error film pixels and limb
  distance(onFilm, inLimb);
  // @ts-expect-error pixels of the limb frame and millimetres of the femoral frame
  midpoint(inLimb, inPatient);
  // @ts-expect-error a direction from one frame into another
  direction(inLimb, onFilm);
  const film = lineThrough(onFilm, point('film', 5, 5));
  const limb = lineThrough(inLimb, point('coronal', 0, 9));
  if (!film.ok || !limb.ok) throw new Error('both lines have length');
  // @ts-expect-error lines of two frames do not cross
  intersection(film.value, limb.value);
  // @ts-expect-error a point of no known frame
  point('somewhere', 0, 0);
  expect(onFilm.frame).toBe('film');
});
