// Adds to pages that work without it: drafts that outlive the browser, copying, and the chart.
(function () {
  'use strict';

  const waiting = new Map();

  function keep(form, gone) {
    const fields = waiting.get(form);
    if (!fields || fields.size === 0) { return; }
    waiting.delete(form);
    const body = new URLSearchParams();
    fields.forEach((text, name) => body.append(name, text));
    const mark = document.querySelector('[data-kept]');
    fetch(form.dataset.draft, { method: 'POST', body: body, keepalive: gone })
      .then((answer) => {
        if (mark) { mark.textContent = answer.ok ? mark.dataset.kept : ''; }
      })
      .catch(() => {
        // the server is away: the next key tries again with everything that is still waiting
        const again = waiting.get(form) || new Map();
        fields.forEach((text, name) => { if (!again.has(name)) { again.set(name, text); } });
        waiting.set(form, again);
      });
  }

  let timer = 0;

  document.addEventListener('input', (event) => {
    const field = event.target;
    const form = field.form;
    if (!form || !form.dataset.draft || !field.name || field.type === 'hidden' || field.type === 'file') { return; }
    const mark = document.querySelector('[data-kept]');
    if (mark) { mark.textContent = ''; }
    const fields = waiting.get(form) || new Map();
    fields.set(field.name, field.type === 'checkbox' && !field.checked ? '' : field.value);
    waiting.set(form, fields);
    clearTimeout(timer);
    timer = setTimeout(() => keep(form, false), 100);
  });

  // a form that is sent carries its fields itself; a draft sent after it would bring them back
  document.addEventListener('submit', (event) => waiting.delete(event.target), true);
  document.addEventListener('htmx:beforeRequest', (event) => waiting.delete(event.target));

  // what is typed while the last reading is still on its way belongs to the next one
  let onItsWay = null;
  let sendNext = false;
  document.addEventListener('submit', (event) => {
    if (onItsWay !== null && event.target.matches('form.reading')) {
      event.preventDefault();
      event.stopImmediatePropagation();
      sendNext = true;
    }
  }, true);
  document.addEventListener('htmx:beforeSend', (event) => {
    if (event.target.matches('form.reading')) {
      const field = event.target.querySelector('#reading');
      onItsWay = field.value;
      field.value = '';
    }
  });
  document.addEventListener('htmx:afterRequest', (event) => {
    const field = document.getElementById('reading');
    if (!event.detail.successful && event.detail.xhr.status !== 422 && onItsWay !== null && field && !field.value) {
      field.value = onItsWay;
    }
    if (!event.detail.successful) { onItsWay = null; sendNext = false; }
  });
  document.addEventListener('htmx:beforeSwap', (event) => {
    const field = document.getElementById('reading');
    const next = field && onItsWay !== null ? field.value : '';
    const send = sendNext;
    onItsWay = null;
    sendNext = false;
    if (next && event.detail.target.id === 'bench') {
      document.addEventListener('htmx:afterSwap', () => {
        const fresh = document.getElementById('reading');
        if (fresh && !fresh.value) {
          fresh.value = next;
          fresh.dispatchEvent(new Event('input', { bubbles: true }));
          if (send) { setTimeout(() => fresh.form.requestSubmit(), 0); }
        }
      }, { once: true });
    }
  });

  // news from another viewer must not take a form away under somebody's hands
  document.addEventListener('htmx:oobBeforeSwap', (event) => {
    const here = document.activeElement;
    if (here && here.matches('input, textarea, select') && event.detail.target.contains(here)) {
      event.detail.shouldSwap = false;
    }
  });
  window.addEventListener('pagehide', () => [...waiting.keys()].forEach((form) => keep(form, true)));

  // a page with problems is read from its summary
  function lead(root) {
    const first = root.querySelector('[role=alert] a[href^="#"]');
    const field = first && document.getElementById(first.getAttribute('href').slice(1));
    if (field) { field.focus(); }
  }
  document.addEventListener('htmx:afterSettle', (event) => {
    lead(document);
    if (event.detail.elt.id === 'bench') {
      const field = document.getElementById('reading');
      if (field && field.value) { field.select(); }
    }
    document.querySelectorAll('[data-chart]').forEach(draw);
  });

  document.addEventListener('click', (event) => {
    const button = event.target.closest('[data-copy]');
    if (!button) { return; }
    const text = document.getElementById(button.dataset.copy);
    const done = () => { button.textContent = button.dataset.copied; };
    if (navigator.clipboard) {
      navigator.clipboard.writeText(text.value).then(done, () => { text.select(); });
    } else {
      text.select();
    }
  });

  function load(kind, address) {
    return new Promise((resolve) => {
      const known = document.querySelector('[data-loaded="' + address + '"]');
      if (known) { resolve(); return; }
      const element = document.createElement(kind);
      element.dataset.loaded = address;
      element.onload = resolve;
      if (kind === 'script') { element.src = address; } else { element.rel = 'stylesheet'; element.href = address; }
      document.head.append(element);
    });
  }

  function draw(figure) {
    if (figure.dataset.drawn) { return; }
    figure.dataset.drawn = 'yes';
    load('link', figure.dataset.style)
      .then(() => load('script', figure.dataset.script))
      .then(() => load('script', figure.dataset.drawing))
      .then(() => window.slowproofChart(figure));
  }

  document.addEventListener('DOMContentLoaded', () => {
    lead(document);
    document.querySelectorAll('[data-chart]').forEach(draw);
  });
}());
