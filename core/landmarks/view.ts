/** Projection of a film. `long-leg` is the standing AP of both legs; all AP views are displayed with the patient's right at the viewer's left. */
export type View = 'long-leg' | 'ap' | 'lateral' | 'skyline' | 'stress-varus' | 'stress-valgus' | 'ct' | 'other';

export const CORONAL_VIEWS: readonly View[] = ['long-leg', 'ap', 'stress-varus', 'stress-valgus'];

/** Direction of the patient that a film's columns run towards, from left to right on the picture. */
export type ColumnDirection = 'patient-left' | 'patient-right' | 'anterior' | 'posterior';
