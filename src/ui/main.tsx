import { setNonce } from 'get-nonce';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { z } from 'zod';
import { Window } from './frame/window.tsx';
import './kit/fonts.css';
import './kit/tokens.css';
import './kit/base.css';
import './kit/kit.css';

// The window's policy allows no evaluation of text, which zod's fast path would try.
z.config({ jitless: true });
const nonce = document.querySelector('meta[property="csp-nonce"]')?.getAttribute('content');
if (nonce !== null && nonce !== undefined) setNonce(nonce);

const root = document.getElementById('window');
if (root === null) throw new Error('index.html has no #window');
createRoot(root).render(
  <StrictMode>
    <Window />
  </StrictMode>,
);
