import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './pages/App.tsx';

const page = document.getElementById('page');
if (!page) throw new Error('the page has no place for the workbench');
createRoot(page).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
