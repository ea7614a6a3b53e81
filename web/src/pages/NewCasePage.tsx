import type { Side } from '@gapline/core/landmarks/side.ts';
import { type DragEvent, useEffect, useState } from 'react';
import type { CatalogueSummary, ImportedFile } from '../../../server/src/contract.ts';
import { faultText } from '../parts/fault-text.ts';
import { sideWord, VIEW_WORDS } from '../parts/words.ts';
import { createCase, getCatalogues, importFilms } from '../wire/api.ts';
import { droppedFiles } from './dropped-files.ts';
import { caseAddress } from './route.ts';

type Accepted = Extract<ImportedFile, { accepted: true }>;

/** A new case from films: dropped, or chosen with the keyboard. */
export function NewCasePage() {
  const [strip, setStrip] = useState(true);
  const [files, setFiles] = useState<readonly ImportedFile[]>([]);
  const [busy, setBusy] = useState<string | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const [over, setOver] = useState(false);

  const take = async (chosen: readonly File[]): Promise<void> => {
    if (chosen.length === 0) return;
    setFault(null);
    setBusy(`${chosen.length} ${chosen.length === 1 ? 'file is' : 'files are'} being read …`);
    try {
      const read = await importFilms(chosen, strip);
      setFiles((before) => [...before.filter((b) => !read.some((r) => sameFile(r, b))), ...read]);
    } catch (reason) {
      setFault(faultText(reason));
    } finally {
      setBusy(null);
    }
  };
  const drop = (event: DragEvent): void => {
    event.preventDefault();
    setOver(false);
    void droppedFiles(event.dataTransfer).then(take);
  };

  const accepted = files.filter((f): f is Accepted => f.accepted);
  return (
    <main className="new-page">
      <h1>New case</h1>
      <fieldset className="plain">
        <legend>Names and numbers in the files</legend>
        <label className="choice">
          <input type="radio" name="strip" checked={strip} onChange={() => setStrip(true)} />
          <span>
            Take them out of the films{' '}
            <small>name, number, birth date, institution; the picture itself is not searched for writing</small>
          </span>
        </label>
        <label className="choice">
          <input type="radio" name="strip" checked={!strip} onChange={() => setStrip(false)} />
          <span>
            Leave them in <small>the films stay as they came; all stays on this machine</small>
          </span>
        </label>
      </fieldset>
      <section
        className={`drop${over ? ' is-over' : ''}`}
        aria-label="Films of the new case"
        onDragOver={(event) => {
          event.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={drop}
      >
        <p className="drop-word">Drop films or a folder here</p>
        <p>DICOM, or PNG and JPEG with the scale to be stated by hand</p>
        <div className="drop-choose">
          <FileChooser label="Choose files" folder={false} onChosen={take} />
          <FileChooser label="Choose a folder" folder onChosen={take} />
        </div>
      </section>
      {busy && <p role="status">{busy}</p>}
      {fault && (
        <p className="fault" role="alert">
          {fault}
        </p>
      )}
      {files.length > 0 && (
        <ul className="imported" aria-label="Files read">
          {files.map((file) => (
            <ImportedLine key={file.file + (file.accepted ? file.sha256 : '')} file={file} />
          ))}
        </ul>
      )}
      {accepted.length > 0 && <NewCaseForm accepted={accepted} />}
    </main>
  );
}

const sameFile = (a: ImportedFile, b: ImportedFile): boolean =>
  a.accepted && b.accepted ? a.sha256 === b.sha256 : a.file === b.file;

function FileChooser(props: {
  readonly label: string;
  readonly folder: boolean;
  readonly onChosen: (files: readonly File[]) => Promise<void>;
}) {
  return (
    <label className="button">
      {props.label}
      <input
        className="unseen"
        type="file"
        multiple
        // The attribute is no standard, but every browser in use knows it.
        ref={(input) => {
          input?.toggleAttribute('webkitdirectory', props.folder);
        }}
        onChange={(event) => {
          void props.onChosen([...(event.target.files ?? [])]);
          event.target.value = '';
        }}
      />
    </label>
  );
}

function ImportedLine({ file }: { readonly file: ImportedFile }) {
  if (!file.accepted) {
    return (
      <li className="is-refused">
        <strong>{file.file}</strong>
        <span>
          <span className="tag is-warning">not taken</span> {file.error.message} {file.error.mend}
        </span>
      </li>
    );
  }
  const { film, about, duplicateOf, warnings = [] } = file;
  return (
    <li>
      <strong>{file.file}</strong>
      <span>
        {VIEW_WORDS[film.view]}, {sideWord(film.side).toLowerCase()}, {about.columns} × {about.rows} px
        {film.takenOn ? `, ${film.takenOn}` : ''}
        {duplicateOf && <span className="tag is-warning">same picture as {duplicateOf}</span>}
        {warnings.map((w) => (
          <small key={`${w.code} ${w.message}`} className="import-warning">
            {w.message} {w.mend}
          </small>
        ))}
      </span>
    </li>
  );
}

function NewCaseForm({ accepted }: { readonly accepted: readonly Accepted[] }) {
  const [title, setTitle] = useState('');
  const [side, setSide] = useState<Side | null>(null);
  const [catalogues, setCatalogues] = useState<readonly CatalogueSummary[]>([]);
  const [catalogue, setCatalogue] = useState('');
  const [fault, setFault] = useState<string | null>(null);
  useEffect(() => {
    getCatalogues()
      .then((all) => {
        setCatalogues(all);
        setCatalogue(all.length === 1 && all[0] ? all[0].id : '');
      })
      .catch((reason: unknown) => setFault(faultText(reason)));
  }, []);
  const films = onlyOnce(accepted);
  const against = side ? films.filter((f) => f.film.side !== 'both' && f.film.side !== side) : [];
  const create = async (): Promise<void> => {
    if (!side) return setFault('Say first whether it is the right or the left knee.');
    const first = films[0];
    try {
      const made = await createCase({
        title: title.trim() || `${sideWord(side)} knee`,
        side,
        ...(first ? { patient: first.patient } : {}),
        films: films.map((f) => f.film),
        ...(catalogue ? { catalogue } : {}),
      });
      window.location.hash = caseAddress(made.case.id);
    } catch (reason) {
      setFault(faultText(reason));
    }
  };
  return (
    <form
      className="new-form"
      onSubmit={(event) => {
        event.preventDefault();
        void create();
      }}
    >
      <fieldset className="plain">
        <legend>Knee to be revised</legend>
        <div className="sides">
          {(['right', 'left'] as const).map((one) => (
            <label key={one} className={`side-choice${side === one ? ' is-chosen' : ''}`}>
              <input type="radio" name="side" checked={side === one} onChange={() => setSide(one)} />
              {sideWord(one)}
            </label>
          ))}
        </div>
      </fieldset>
      {against.length > 0 && (
        <p className="warning" role="alert">
          {against.map((f) => f.file).join(', ')} {against.length === 1 ? 'says' : 'say'} the other side. On the case
          page the film is held until you confirm its side.
        </p>
      )}
      <label className="field">
        <span>Title</span>
        <input value={title} maxLength={200} onChange={(event) => setTitle(event.target.value)} />
      </label>
      <label className="field">
        <span>Catalogue of components</span>
        <select value={catalogue} onChange={(event) => setCatalogue(event.target.value)}>
          <option value="">None: no construct is proposed</option>
          {catalogues.map((c) => (
            <option key={c.id} value={c.id}>
              {c.name}
              {c.invented ? ' (invented)' : ''}
            </option>
          ))}
        </select>
      </label>
      {fault && (
        <p className="fault" role="alert">
          {fault}
        </p>
      )}
      <button type="submit" className="button is-main">
        Begin with {films.length} {films.length === 1 ? 'film' : 'films'}
      </button>
    </form>
  );
}

/** One and the same picture is taken once. */
const onlyOnce = (accepted: readonly Accepted[]): readonly Accepted[] =>
  accepted.filter((f, i) => accepted.findIndex((other) => other.sha256 === f.sha256) === i);
