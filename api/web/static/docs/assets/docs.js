// Draws the reference from the contract that this service hands out. Nothing is
// asked of any other host.
'use strict';

(async () => {
  const place = document.getElementById('reference');
  let contract;
  try {
    const answer = await fetch('/openapi.json');
    if (!answer.ok) throw new Error(`status ${answer.status}`);
    contract = await answer.json();
  } catch {
    place.textContent = 'The contract could not be loaded. Try again in a moment.';
    return;
  }
  // What is tried is tried here, wherever the contract says the service listens.
  contract.servers = [{ url: location.origin }];
  window.SwaggerUIBundle({
    spec: contract,
    dom_id: '#reference',
    presets: [window.SwaggerUIBundle.presets.apis],
    deepLinking: false, // its links would lie inside buttons
    docExpansion: 'list',
    defaultModelsExpandDepth: -1,
    displayRequestDuration: true,
    tryItOutEnabled: true,
    syntaxHighlight: false, // its colours are too faint to read
    validatorUrl: null,
    persistAuthorization: false,
  });
  new MutationObserver(() => mend(place)).observe(place, { childList: true, subtree: true });
})();

// mend tells screen readers what the viewer's own marks leave out: headings that
// skip no level, and names for what has to be chosen or filled in.
function mend(place) {
  for (const heading of place.querySelectorAll('h3, h4, h5, h6')) {
    const level = String(Number(heading.tagName[1]) - 1);
    if (heading.getAttribute('aria-level') === level) continue;
    heading.setAttribute('role', 'heading');
    heading.setAttribute('aria-level', level);
  }
  for (const field of place.querySelectorAll('select:not([aria-label]), textarea:not([aria-label])')) {
    field.setAttribute('aria-label', nameOf(field));
  }
  for (const button of place.querySelectorAll('button:empty:not([aria-label]), .copy-to-clipboard button:not([aria-label])')) {
    button.setAttribute('aria-label', 'Copy');
  }
  // What scrolls can be reached by keyboard.
  for (const text of place.querySelectorAll('pre:not([tabindex])')) text.tabIndex = 0;
}

function nameOf(field) {
  if (field.id === 'servers') return 'Server';
  if (field.tagName === 'TEXTAREA') return 'Request body';
  if (field.closest('.examples-select')) return 'Example';
  return 'Media type';
}
