import { caseAddress, workUpAddress } from './route.ts';

/** The two halves of a case: why it failed, and how it is rebuilt. */
export function CaseSwitch({ id, on }: { readonly id: string; readonly on: 'work-up' | 'films' }) {
  return (
    <nav className="case-switch" aria-label="Halves of the case">
      <a href={workUpAddress(id)} aria-current={on === 'work-up' ? 'page' : undefined}>
        Work-up
      </a>
      <a href={caseAddress(id)} aria-current={on === 'films' ? 'page' : undefined}>
        Films and plan
      </a>
    </nav>
  );
}
