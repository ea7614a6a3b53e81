import { applyEdit } from '@gapline/core/plan/apply-edit.ts';
import { bareCase } from '@gapline/core/plan/bare-case.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import { describe, expect, test } from 'vitest';
import { addLevel, moveWall, nextRow, removeLevel, traceOf } from '../case/canal-edits.ts';
import { addDefect, moveCorner, removeCorner, removeDefect } from '../case/defect-edits.ts';
import { nextWall, type Tracing, takeBack, traceStep } from './trace-canal.ts';

/** The case after an edit; what the case refuses is a fault of the edit. */
function after(file: CaseFile, edit: Edit): CaseFile {
  const next = applyEdit(file, edit);
  if (!next.ok) throw new Error(next.reason.message);
  return next.value;
}
const at = (x: number, y: number) => ({ x, y });
const level = (y: number) => ({ innerA: at(90, y), innerB: at(110, y) });
const femur = { bone: 'femur', film: 'ap' } as const;

describe('tracing a canal', () => {
  test('two presses make a level, the second wall asked for after the first', () => {
    const start: Tracing = { bone: 'femur', outer: false, presses: [] };
    const one = traceStep(start, at(90, 40));
    expect([one.level, nextWall(start), nextWall(one.tracing)]).toEqual([null, 'innerA', 'innerB']);
    const two = traceStep(one.tracing, at(110, 41));
    expect(two.level).toEqual({ innerA: at(90, 40), innerB: at(110, 41) });
    expect(two.tracing.presses).toEqual([]);
    expect(takeBack(one.tracing)).toEqual(start);
  });

  test('with the outer walls four presses in one sweep across the bone make a level', () => {
    let tracing: Tracing = { bone: 'tibia', outer: true, presses: [] };
    const asked: string[] = [];
    let made = null;
    for (const x of [80, 90, 110, 120]) {
      asked.push(nextWall(tracing));
      const turn = traceStep(tracing, at(x, 5));
      tracing = turn.tracing;
      made = turn.level;
    }
    expect(asked).toEqual(['outerA', 'innerA', 'innerB', 'outerB']);
    expect(made).toEqual({ innerA: at(90, 5), innerB: at(110, 5), outerA: at(80, 5), outerB: at(120, 5) });
  });

  test('levels are kept from the joint outwards whatever the order in which they are pressed', () => {
    let file = bareCase;
    for (const y of [200, 300, 250]) file = after(file, addLevel(file, femur, level(y)));
    expect(traceOf(file, femur)?.levels.map((l) => l.innerA.y)).toEqual([300, 250, 200]);
    const tibia = { bone: 'tibia', film: 'ap' } as const;
    for (const y of [500, 400]) file = after(file, addLevel(file, tibia, level(y)));
    expect(traceOf(file, tibia)?.levels.map((l) => l.innerA.y)).toEqual([400, 500]);
    expect(nextRow(traceOf(file, femur), 0.5)).toBe(160);
    expect(nextRow(traceOf(file, tibia), 0.5)).toBe(540);
    expect([nextRow(undefined, 0.5), nextRow(traceOf(file, tibia), null)]).toEqual([null, null]);
  });

  test('a wall is moved alone, a level goes alone, and with the last level the canal', () => {
    let file = after(bareCase, addLevel(bareCase, femur, level(200)));
    file = after(file, addLevel(file, femur, level(150)));
    file = after(file, moveWall(file, femur, { level: 1, wall: 'innerB', to: at(115.123, 151) }));
    expect(traceOf(file, femur)?.levels[1]).toEqual({ innerA: at(90, 150), innerB: at(115.12, 151) });
    expect(traceOf(file, femur)?.levels[0]).toEqual(level(200));
    file = after(file, removeLevel(file, femur, 0));
    expect(traceOf(file, femur)?.levels).toHaveLength(1);
    expect(after(file, removeLevel(file, femur, 0)).canals).toBeUndefined();
  });
});

describe('defects drawn on films', () => {
  const square = [at(0, 0), at(10, 0), at(10, 10), at(0, 10)];
  const defect = { id: 'a', film: 'ap', surface: 'tibia-plateau', compartment: 'medial', outline: square } as const;

  test('a corner is moved or taken away, the third with the whole outline', () => {
    let file = after(bareCase, addDefect(bareCase, defect));
    file = after(file, moveCorner(file, 'a', { corner: 2, to: at(12, 13) }));
    expect(file.bone?.drawn?.[0]?.outline[2]).toEqual(at(12, 13));
    file = after(file, removeCorner(file, 'a', 0));
    expect(file.bone?.drawn?.[0]?.outline).toHaveLength(3);
    expect(after(file, removeCorner(file, 'a', 0)).bone?.drawn).toBeUndefined();
  });

  test('another outline stands beside the first, and goes alone', () => {
    let file = after(bareCase, addDefect(bareCase, defect));
    file = after(file, addDefect(file, { ...defect, id: 'b', compartment: 'lateral' }));
    expect(after(file, removeDefect(file, 'a')).bone?.drawn?.map((d) => d.id)).toEqual(['b']);
  });
});
