/** Files of a drop, folders gone through to their ends; in the order of their paths. */
export async function droppedFiles(data: DataTransfer): Promise<readonly File[]> {
  const entries = [...data.items].flatMap((item) => item.webkitGetAsEntry() ?? []);
  if (entries.length === 0) return [...data.files];
  const found = (await Promise.all(entries.map(filesOf))).flat();
  return found.sort((a, b) => (a.path < b.path ? -1 : 1)).map((f) => f.file);
}

interface Found {
  readonly path: string;
  readonly file: File;
}

async function filesOf(entry: FileSystemEntry): Promise<readonly Found[]> {
  if (isFile(entry)) {
    const file = await new Promise<File>((done, failed) => entry.file(done, failed));
    return [{ path: entry.fullPath, file }];
  }
  if (!isFolder(entry)) return [];
  const reader = entry.createReader();
  const inside: FileSystemEntry[] = [];
  // A reader gives its entries in portions, and none when it is through.
  for (;;) {
    const portion = await new Promise<FileSystemEntry[]>((done, failed) => reader.readEntries(done, failed));
    if (portion.length === 0) break;
    inside.push(...portion);
  }
  return (await Promise.all(inside.map(filesOf))).flat();
}

const isFile = (entry: FileSystemEntry): entry is FileSystemFileEntry => entry.isFile;
const isFolder = (entry: FileSystemEntry): entry is FileSystemDirectoryEntry => entry.isDirectory;
