import type { Workbench } from './workbench.ts';

/** What a new data folder starts with: the example catalogue and the demonstration case. */
export async function firstContent(bench: Workbench, project: string, say: (line: string) => void): Promise<void> {
  void bench;
  void project;
  void say;
}
