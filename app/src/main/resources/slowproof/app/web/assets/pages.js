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

  // Readings may be typed faster than a busy machine answers: while one is on its way the next ones wait their turn,
  // and what stands in the field meanwhile stays there.
  const turn = { busy: false, sent: '', waiting: [], rest: '' };

  function showWaiting() {
    const mark = document.querySelector('.reading [data-kept]');
    if (mark && turn.waiting.length > 0) { mark.textContent = turn.waiting.join(' \u2026 ') + ' \u2026'; }
  }

  document.addEventListener('submit', (event) => {
    if (!turn.busy || !event.target.matches('form.reading')) { return; }
    event.preventDefault();
    event.stopImmediatePropagation();
    const field = document.getElementById('reading');
    if (field.value) { turn.waiting.push(field.value); }
    field.value = '';
    showWaiting();
  }, true);

  document.addEventListener('htmx:beforeSend', (event) => {
    if (!event.target.matches('form.reading')) { return; }
    const field = document.getElementById('reading');
    turn.busy = true;
    turn.sent = field.value;
    field.value = turn.rest;
    turn.rest = '';
    showWaiting();
  });

  // the server is away: the reading goes back to where it was typed, before everything that waits
  document.addEventListener('htmx:sendError', () => {
    const field = document.getElementById('reading');
    if (!turn.busy || !field) { return; }
    if (field.value) { turn.waiting.push(field.value); }
    field.value = turn.sent;
    turn.busy = false;
  });

  document.addEventListener('htmx:beforeSwap', (event) => {
    if (event.detail.target.id !== 'bench') { return; }
    const own = event.detail.requestConfig.elt;
    const typed = new Map();
    document.querySelectorAll('#bench input[type=text]').forEach((field) => {
      if (field.form !== own && field.id !== 'reading' && field.value !== field.defaultValue) {
        typed.set(field.id, field.value);
      }
    });
    const reading = document.getElementById('reading');
    if (reading && (own.matches('form.reading') ? reading.value : reading.value !== reading.defaultValue)) {
      turn.rest = reading.value;
    }
    if (own.matches('form.reading')) { turn.busy = false; }
    document.addEventListener('htmx:afterSwap', () => {
      typed.forEach((text, id) => {
        const fresh = document.getElementById(id);
        if (!fresh) { return; }
        fresh.value = text;
        const folded = fresh.closest('details');
        if (folded) { folded.open = true; }
      });
      giveBack();
    }, { once: true });
    // the new form works only once it has settled
    document.addEventListener('htmx:afterSettle', carryOn, { once: true });
  });

  /** A reading that came back with a question is answered before the next one is sent. */
  function questioned() {
    return document.querySelector('#question, .problems') !== null;
  }

  function giveBack() {
    const field = document.getElementById('reading');
    if (!field || questioned() || !turn.rest) { return; }
    field.value = turn.rest;
    turn.rest = '';
    field.dispatchEvent(new Event('input', { bubbles: true }));
  }

  function carryOn() {
    const field = document.getElementById('reading');
    if (!field || questioned() || turn.busy || turn.waiting.length === 0) { return; }
    turn.rest = field.value;
    field.value = turn.waiting.shift();
    field.form.requestSubmit();
  }

  // the sheet that sent the reading shows it already: only the others fetch it
  let newest = 0;
  document.addEventListener('sse:changed', (event) => { newest = Number(event.detail.data) || Infinity; }, true);
  document.addEventListener('htmx:beforeRequest', (event) => {
    const sheet = document.getElementById('bench');
    if (event.target.id === 'live' && sheet && Number(sheet.dataset.seq) >= newest) { event.preventDefault(); }
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
      if (field && field.value && questioned()) { field.select(); }
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
