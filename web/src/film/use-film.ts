import { useEffect, useState } from 'react';
import { holdFilm, type LoadedFilm, loadFilm } from './film-shelf.ts';

export interface FilmLoad {
  readonly film: LoadedFilm | null;
  readonly fault: string | null;
}

/** The film of that content hash, once it is there, or why it is not. */
export function useFilm(sha256: string | undefined): FilmLoad {
  const [load, setLoad] = useState<FilmLoad>({ film: null, fault: null });
  useEffect(() => {
    let wanted = true;
    setLoad({ film: null, fault: sha256 ? null : 'The picture of this film is not on this machine.' });
    const letGo = sha256 && holdFilm(sha256);
    if (sha256) {
      loadFilm(sha256)
        .then((film) => wanted && setLoad({ film, fault: null }))
        .catch((fault: unknown) => {
          if (wanted)
            setLoad({ film: null, fault: fault instanceof Error ? fault.message : 'The film cannot be shown.' });
        });
    }
    return () => {
      wanted = false;
      if (letGo) letGo();
    };
  }, [sha256]);
  return load;
}
