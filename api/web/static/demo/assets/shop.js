// What the shop's page does with the quote element: it changes its language, and
// shows what the workroom would receive. This page sends nothing anywhere.
const quote = document.querySelector('bridletie-quote');
const language = document.querySelector('#language');
const received = document.querySelector('#received');

language?.addEventListener('change', () => quote?.setAttribute('language', /** @type {HTMLSelectElement} */ (language).value));

document.addEventListener('bridletie-send', (event) => {
  const { request, estimate, contact } = /** @type {CustomEvent} */ (event).detail;
  if (!(received instanceof HTMLElement)) return;
  event.preventDefault(); // this page takes it
  received.hidden = false;
  const text = received.querySelector('pre');
  if (text) text.textContent = JSON.stringify({ contact, request, estimate }, null, 2);
});
