export type StiffnessGrade = 'none' | 'mild' | 'moderate' | 'severe';

const ORDER: readonly StiffnessGrade[] = ['none', 'mild', 'moderate', 'severe'];

const ofFlexion = (flexion: number): StiffnessGrade =>
  flexion < 70 ? 'severe' : flexion < 90 ? 'moderate' : flexion <= 100 ? 'mild' : 'none';

const ofDeficit = (deficit: number): StiffnessGrade =>
  deficit > 20 ? 'severe' : deficit > 10 ? 'moderate' : deficit >= 5 ? 'mild' : 'none';

/**
 * CAUSE-5: grade of stiffness from flexion and extension deficit, degrees (deficit: 0 = straight, + = lacks extension;
 * null = not measured). The worse of the two counts. With one of them unknown the grade is the least that it can be,
 * and `atLeast` is true. Null when neither is known. Kalson 2016, international consensus (from memory).
 */
export function stiffnessGrade(
  flexionDeg: number | null,
  deficitDeg: number | null,
): { grade: StiffnessGrade; atLeast: boolean } | null {
  const grades = [
    flexionDeg === null ? null : ofFlexion(flexionDeg),
    deficitDeg === null ? null : ofDeficit(deficitDeg),
  ];
  const known = grades.filter((g) => g !== null);
  if (known.length === 0) return null;
  const grade = known.reduce((a, b) => (ORDER.indexOf(b) > ORDER.indexOf(a) ? b : a));
  return { grade, atLeast: known.length === 1 && grade !== 'severe' };
}
