import { useEffect, useState } from 'react';
import { getAbout } from '../wire/api.ts';
import { CaseList } from './CaseList.tsx';
import { CasePage } from './CasePage.tsx';
import { NewCasePage } from './NewCasePage.tsx';
import { LIST, useRoute } from './route.ts';

/** The frame around every page: name, page, and the caution once. */
export function App() {
  const route = useRoute();
  const [version, setVersion] = useState<string | null>(null);
  useEffect(() => {
    getAbout()
      .then((about) => setVersion(about.version))
      .catch(() => setVersion(null));
  }, []);
  useEffect(() => {
    document.title =
      route.page === 'new' ? 'New case – Gapline' : route.page === 'list' ? 'Cases – Gapline' : 'Gapline';
  }, [route]);
  if (route.page === 'case') return <CasePage key={route.id} id={route.id} half={route.half} version={version} />;
  return (
    <div className="sheet-page">
      <header className="top">
        <a className="name" href={LIST}>
          Gapline
        </a>
        <span className="top-what">Planning the revision of a total knee replacement</span>
      </header>
      {route.page === 'new' ? <NewCasePage /> : <CaseList />}
      <Caution version={version} />
    </div>
  );
}

/** What the tool is not, and who decides. */
export function Caution({ version }: { readonly version: string | null }) {
  return (
    <footer className="caution">
      For research and education. No CE mark, no clearance, no other approval; not validated for clinical use. A
      qualified surgeon decides, and checks side, scale, sizes and compatibility against the maker's current documents.
      {version && <span className="version"> Version {version}</span>}
    </footer>
  );
}
