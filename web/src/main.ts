import { mount } from 'svelte';
import App from './App.svelte';
import './look/ink.css';
import './look/day.css';

const target = document.getElementById('page');
if (target) mount(App, { target });

// The keeper lets the page open without signal. It needs a secure place: TLS or this machine.
function keep(): void {
  const again = () => window.addEventListener('online', keep, { once: true });
  if (navigator.onLine) navigator.serviceWorker.register('/keeper.js').catch(again);
  else again();
}

if ('serviceWorker' in navigator && import.meta.env.PROD) {
  // After the first plan: keeping the page must not stand in its way.
  window.addEventListener('load', () => setTimeout(keep, 2000));
}
