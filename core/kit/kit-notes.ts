import type { Reason } from '../measure/outcome.ts';
import type { KitAsked } from './kit-options.ts';
import { SERVICE_IN_WORDS } from './services-needed.ts';
import type { SetService } from './set-list.ts';

/** What is to be kept in mind besides the stock: parts and services that do not meet, and days that are not known. */
export function notesOn(
  { setList, catalogue, surgeryOn, holidays, always }: KitAsked,
  given: readonly SetService[],
): Reason[] {
  const refs = new Set(
    Object.values(catalogue).flatMap((v: unknown) =>
      Array.isArray(v) ? v.flatMap((p: { readonly ref?: string }) => p.ref ?? []) : [],
    ),
  );
  const strange = [...new Set(setList.sets.flatMap((s) => s.parts.map((p) => p.ref)))].filter((ref) => !refs.has(ref));
  const ungiven = (always ?? ['extraction']).filter((service) => !given.includes(service));
  return [
    ...(strange.length === 0
      ? []
      : [
          {
            code: 'KIT-9',
            message: `The sets hold parts that the catalogue ${catalogue.name} does not: ${strange.slice(0, 5).join(', ')}${strange.length > 5 ? ` and ${strange.length - 5} more` : ''}. They count for nothing.`,
            field: 'sets',
            mend: 'Correct the references, or choose the catalogue that the list belongs to.',
          },
        ]),
    ...ungiven.map((service) => ({
      code: 'KIT-4',
      message: `No set of the list gives ${SERVICE_IN_WORDS[service]}: it is taken to be in the room.`,
      field: 'sets',
      mend: 'Add the set, with its service.',
    })),
    ...(surgeryOn && !holidays
      ? [
          {
            code: 'KIT-8',
            message: 'Order-by dates count Monday to Friday; holidays are not known.',
            field: 'holidays',
          },
        ]
      : []),
    ...(surgeryOn
      ? []
      : [
          {
            code: 'KIT-8',
            message: 'The day of surgery is not set: no order-by dates, and no lot counts as expired.',
            field: 'kit.surgeryOn',
            mend: 'Enter the day of surgery.',
          },
        ]),
  ];
}
