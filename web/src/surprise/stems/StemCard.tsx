import { WALL_WORDS } from '@gapline/core/stems/canal-view.ts';
import type { StemVerdict } from '@gapline/core/stems/judge-stem.ts';
import type { StemInView } from '@gapline/core/stems/stem-in-view.ts';
import type { Standing3 } from '@gapline/core/stems/tip-checks.ts';
import { number, signed } from '../../parts/words.ts';
import { OffsetDial } from './OffsetDial.tsx';

const VERDICT: Readonly<Record<StemVerdict['verdict'], string>> = {
  passes: 'passes',
  'does-not-pass': 'does not pass',
  'not-known': 'not known',
};

interface Props {
  readonly stem: StemVerdict;
  readonly bone: 'femur' | 'tibia';
  readonly side: 'right' | 'left';
  readonly title?: string;
}

/** One stem with its verdict in a sentence, and every number behind it. */
export function StemCard({ stem, bone, side, title }: Props) {
  return (
    <details className="stem-card" open={title !== undefined}>
      <summary>
        <StandingShape is={stem.verdict} />
        <span className="stem-name">
          {title && <span className="stem-title">{title}</span>}
          {stem.name}
        </span>
        <span className="stem-verdict">{VERDICT[stem.verdict]}</span>
      </summary>
      <div className="stem-body">
        <p>{capital(stem.says)}.</p>
        <div className="stem-numbers">
          <table>
            <thead>
              <tr>
                <td />
                <th scope="col">AP</th>
                <th scope="col">Lateral</th>
              </tr>
            </thead>
            <tbody>
              <Row what="Forced tilt of the tip" of={stem} tell={tiltWords} />
              <Row what="Least clearance" of={stem} tell={clearanceWords} />
              <Row
                what="Greatest fill"
                of={stem}
                tell={(v) => (v.fill ? `${Math.round(100 * v.fill.greatest)} %` : null)}
              />
              <Row
                what="Engaged, over 85 % filled"
                of={stem}
                tell={(v) => (v.fill ? `${Math.round(v.fill.over85Mm)} mm` : null)}
              />
              <Row
                what="Longest of this diameter"
                of={stem}
                tell={(v) =>
                  v.longestMm === null
                    ? null
                    : `${Math.floor(v.longestMm)} mm${v.longestEndsWithTrace ? ' or more: the trace ends' : ''}`
                }
              />
            </tbody>
          </table>
          {stem.offset && <OffsetDial offset={stem.offset} bone={bone} side={side} />}
        </div>
        <ul className="stem-checks">
          {stem.fill && (
            <>
              <Check is={stem.fill.fill}>
                Fill as published (over 85 %{bone === 'femur' ? ', or over 70 % for 20 mm' : ''})
              </Check>
              <Check is={stem.fill.engaged}>Engaged for 40 mm or more</Check>
            </>
          )}
          {stem.mantleMm !== null && <Check is="met">Cement at its thinnest {number(stem.mantleMm)} mm</Check>}
          {stem.bypass.map((b) => (
            <Check key={`${b.spot.kind} ${b.spot.farEndMm}`} is={b.standing}>
              Tip {number(b.beyondMm)} mm beyond the {b.spot.kind.replace('-', ' ')}
              {b.wantedMm === null ? ', two diameters not known' : `, ${number(b.wantedMm)} mm wanted`}
            </Check>
          ))}
          {stem.metal && (
            <Check is={stem.metal.standing}>
              {number(stem.metal.gapMm)} mm to the other metal, {number(stem.metal.wantedMm)} mm wanted
            </Check>
          )}
        </ul>
        <ComponentTilt stem={stem} bone={bone} />
      </div>
    </details>
  );
}

const capital = (s: string): string => s.charAt(0).toUpperCase() + s.slice(1);

function Row({
  what,
  of,
  tell,
}: {
  readonly what: string;
  readonly of: StemVerdict;
  readonly tell: (view: StemInView) => string | null;
}) {
  const told = (view: StemInView | null): string => (view ? (tell(view) ?? 'none') : 'not traced');
  return (
    <tr>
      <th scope="row">{what}</th>
      <td>{told(of.ap)}</td>
      <td>{told(of.lateral)}</td>
    </tr>
  );
}

function tiltWords({ tiltDeg, tiltSdDeg, view }: StemInView): string | null {
  if (tiltDeg === null) return 'does not pass';
  if (Math.abs(tiltDeg) < 0.05) return 'none';
  const { low, high } = WALL_WORDS[view];
  return `${number(Math.abs(tiltDeg), 'deg')}° ${tiltDeg > 0 ? high : low}${tiltSdDeg === null ? '' : ` ± ${number(1.96 * tiltSdDeg, 'deg')}`}`;
}

function clearanceWords({ clearance, view }: StemInView): string | null {
  if (!clearance) return null;
  const { low, high } = WALL_WORDS[view];
  const [mm, at] = clearance.low.mm <= clearance.high.mm ? [clearance.low, low] : [clearance.high, high];
  return `${number(mm.mm)} mm ${at}, ${Math.round(mm.zMm)} mm from the joint line`;
}

const CHECK_WORDS: Readonly<Record<Standing3, string>> = { met: 'yes', 'not-met': 'no', 'not-known': 'not known' };

function Check({ is, children }: { readonly is: Standing3; readonly children: React.ReactNode }) {
  return (
    <li className={`check is-${is}`}>
      <StandingShape is={is === 'met' ? 'passes' : is === 'not-met' ? 'does-not-pass' : 'not-known'} />
      <span>
        {children} <span className="unseen">: {CHECK_WORDS[is]}</span>
      </span>
    </li>
  );
}

/** What the stem does to its component. */
function ComponentTilt({ stem, bone }: { readonly stem: StemVerdict; readonly bone: 'femur' | 'tibia' }) {
  const { coronalDeg, sagittalDeg } = stem.component;
  const some =
    (coronalDeg !== null && Math.abs(coronalDeg) >= 0.05) || (sagittalDeg !== null && Math.abs(sagittalDeg) >= 0.05);
  if (!some) return null;
  return (
    <p className="said-line">
      It sets its component{' '}
      {coronalDeg === null ? 'in an unknown coronal tilt' : `${signed(coronalDeg, 'deg')}° (valgus +)`},{' '}
      {sagittalDeg === null
        ? 'front to back not known'
        : `${signed(sagittalDeg, 'deg')}° (${bone === 'femur' ? 'flexion' : 'posterior slope'} +)`}
      .
    </p>
  );
}

/** Tick, cross, open ring: readable without colour. */
export function StandingShape({ is }: { readonly is: StemVerdict['verdict'] | 'fits' | 'does-not-fit' }) {
  return (
    <svg className={`verdict-shape is-${is}`} viewBox="0 0 16 16" aria-hidden="true">
      {(is === 'passes' || is === 'fits') && <path d="M2.5 8.5 6.5 12.5 13.5 4" />}
      {(is === 'does-not-pass' || is === 'does-not-fit') && <path d="M3.5 3.5l9 9M12.5 3.5l-9 9" />}
      {is === 'not-known' && <circle cx="8" cy="8" r="5" />}
    </svg>
  );
}
