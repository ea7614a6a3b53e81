import { openEmbeddedStore } from '@gapline/store/src/open-store.ts';

/** A data folder that holds one case already, so that a start does not make the demonstration case. */
export async function fillSmallDataFolder(folder: string): Promise<void> {
  const opened = await openEmbeddedStore(folder);
  if (!opened.ok) throw new Error(opened.reason.message);
  await opened.value.cases.create(
    {
      format: 'gapline-case',
      version: '1.0',
      id: 'small',
      title: 'Small',
      side: 'left',
      patient: {},
      films: [],
      marks: [],
    },
    '2026-01-01T00:00:00.000Z',
  );
  await opened.value.close();
}
