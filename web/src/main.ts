import { mount } from 'svelte';
import App from './App.svelte';
import './look/ink.css';
import './look/day.css';

const target = document.getElementById('page');
if (target) mount(App, { target });

// The keeper lets the page open without signal. It needs a secure place: TLS or this machine.
if ('serviceWorker' in navigator && import.meta.env.PROD) {
  // After the first plan: keeping the page must not stand in its way.
  window.addEventListener('load', () => setTimeout(() => void navigator.serviceWorker.register('/keeper.js'), 2000));
}
