import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Mesh, readObj } from './mesh.ts';

export type BoneName = 'femur' | 'tibia' | 'fibula' | 'talus' | 'patella';

const read = new Map<BoneName, Mesh>();

/** The right-sided bone from which every limb is warped (meshes/LICENSE), in its own frame: x lateral, y anterior, z proximal. */
export function template(bone: BoneName): Mesh {
  const known = read.get(bone);
  if (known) return known;
  const mesh = readObj(readFileSync(join(import.meta.dirname, '..', 'meshes', `${bone}.obj`), 'utf8'));
  read.set(bone, mesh);
  return mesh;
}
