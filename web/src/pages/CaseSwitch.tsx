import { boneAndKitAddress, type CaseHalf, caseAddress, workUpAddress } from './route.ts';

const PARTS: readonly (readonly [CaseHalf, string, (id: string) => string])[] = [
  ['work-up', 'Work-up', workUpAddress],
  ['films', 'Films and plan', caseAddress],
  ['bone-and-kit', 'Bone and kit', boneAndKitAddress],
];

/** The three parts of a case: why it failed, how it is rebuilt, and what if the bone is worse than it looks. */
export function CaseSwitch({ id, on }: { readonly id: string; readonly on: CaseHalf }) {
  return (
    <nav className="case-switch" aria-label="Parts of the case">
      {PARTS.map(([half, words, address]) => (
        <a key={half} href={address(id)} aria-current={on === half ? 'page' : undefined}>
          {words}
        </a>
      ))}
    </nav>
  );
}
