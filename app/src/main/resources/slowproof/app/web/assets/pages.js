// Adds to pages that work without it: drafts that outlive the browser, copying, and the chart.
(function () {
  'use strict';

  /** What a request that records something needs besides its body: the secret of the session, where there is one. */
  function headers() {
    const token = document.querySelector('meta[name="form-token"]');
    return token ? { 'X-Form-Token': token.content } : {};
  }

  const waiting = new Map();
  let keeping = Promise.resolve();

  function keep(form, gone) {
    const fields = waiting.get(form);
    if (!fields || fields.size === 0) { return; }
    waiting.delete(form);
    const body = new URLSearchParams();
    fields.forEach((text, name) => body.append(name, text));
    const mark = document.querySelector('[data-kept]');
    keeping = fetch(form.dataset.draft, { method: 'POST', body: body, headers: headers(), keepalive: gone })
      .then((answer) => {
        if (mark && turn.waiting.length === 0 && !waiting.has(form)) { mark.textContent = answer.ok ? mark.dataset.kept : ''; }
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
    if (!form || !form.dataset.draft || !field.name || field.type === 'hidden' || field.type === 'file' || field.type === 'range') { return; }
    const mark = document.querySelector('[data-kept]');
    if (mark) { mark.textContent = ''; }
    showTurn();
    const fields = waiting.get(form) || new Map();
    fields.set(field.name, field.type === 'checkbox' && !field.checked ? '' : field.value);
    waiting.set(form, fields);
    clearTimeout(timer);
    timer = setTimeout(() => keep(form, false), 100);
  });

  // a form that is sent carries its fields itself; a draft sent after it would bring them back
  document.addEventListener('submit', (event) => waiting.delete(event.target), true);
  document.addEventListener('htmx:beforeRequest', (event) => waiting.delete(event.target));

  // The sheet at the bench. Readings may be typed faster than a busy machine answers: one is on its way, the next ones
  // wait their turn. The field for them never leaves the document and its form is never sent by the browser itself:
  // either would swallow keys, for a moment or until the next page has come.
  const AGAIN_MS = 1000;
  const turn = { busy: false, away: false, waiting: [], held: null, aside: null, sent: null, count: 0 };

  function questioned() {
    return document.querySelector('#question, .problems') !== null;
  }

  /** Writes beside the field what waits, and what came back while more was typed. */
  function showTurn() {
    const mark = document.querySelector('.reading [data-kept]');
    if (mark && turn.waiting.length > 0) {
      mark.textContent = (turn.away ? mark.dataset.away + ' ' : '')
        + turn.waiting.map((one) => one.reading + ' \u2026').join(' ');
    }
    const held = document.getElementById('held');
    if (held) {
      held.hidden = turn.held === null;
      held.querySelector('strong').textContent = turn.held ? turn.held.reading : '';
    }
  }

  document.addEventListener('submit', (event) => {
    if (!event.target.matches('form.reading')) { return; }
    event.preventDefault();
    event.stopImmediatePropagation();
    const field = document.getElementById('reading');
    const reference = document.getElementById('reference');
    const kept = event.submitter && event.submitter.name === 'confirmed' ? event.submitter.value : '';
    if (kept) {
      if (turn.busy) { return; }
      if (field.value === kept) { field.value = ''; }
      turn.held = null;
      send({ reading: kept, reference: reference.value, confirmed: kept });
      return;
    }
    const one = { reading: field.value, reference: reference.value, confirmed: '' };
    const corrected = turn.aside !== null;
    const mustWait = turn.busy || turn.held !== null || (turn.waiting.length > 0 && !corrected);
    if (mustWait && !one.reading) { return; }
    field.value = turn.aside || '';
    turn.aside = null;
    reference.value = '';
    if (mustWait) {
      turn.waiting.push(one);
      showTurn();
    } else {
      send(one);
    }
  }, true);

  async function send(one) {
    turn.busy = true;
    const form = document.querySelector('form.reading');
    // the same reading sent again carries the same name, so that it counts once although its answer was lost
    if (!turn.sent || turn.sent.reading !== one.reading) {
      turn.count += 1;
      turn.sent = { reading: one.reading, token: form.elements.token.value + '-' + turn.count };
    }
    const body = new URLSearchParams({
      reading: one.reading, reference: one.reference, token: turn.sent.token, seen: form.elements.seen.value,
    });
    if (one.confirmed) { body.set('confirmed', one.confirmed); }
    let answer = null;
    let page = null;
    try {
      // a draft that arrived after its reading would bring it back
      await keeping;
      answer = await fetch(form.action, { method: 'POST', body: body, headers: headers() });
      page = new DOMParser().parseFromString(await answer.text(), 'text/html');
    } catch {
      // the server is away: everything waits in its order until it is there again
      turn.waiting.unshift(one);
      turn.away = true;
      showTurn();
      setTimeout(() => { turn.busy = false; carryOn(); }, AGAIN_MS);
      return;
    }
    turn.busy = false;
    turn.away = false;
    turn.sent = null;
    if ((answer.ok || answer.status === 422) && page.getElementById('bench')) {
      exchange(page, null);
      if (questioned()) { giveBack(one); }
      showTurn();
    } else {
      giveBack(one);
      showTurn();
      const mark = document.querySelector('.reading [data-kept]');
      if (mark) { mark.textContent = mark.dataset.refused; }
    }
    const field = document.getElementById('reading');
    // its draft went with the reading that was recorded meanwhile
    if (field && field.value) { field.dispatchEvent(new Event('input', { bubbles: true })); }
    carryOn();
  }

  /** A reading that was not taken goes back into the field, unless more has been typed there: then it waits beside. */
  function giveBack(one) {
    const field = document.getElementById('reading');
    if (field && !field.value && turn.waiting.length === 0) {
      field.value = one.reading;
      document.getElementById('reference').value = one.reference;
      field.select();
    } else {
      turn.held = one;
    }
  }

  /** What came back is answered before the next one is sent. */
  function carryOn() {
    if (turn.busy || turn.held !== null || questioned() || turn.waiting.length === 0) { return; }
    send(turn.waiting.shift());
    showTurn();
  }

  document.addEventListener('click', (event) => {
    if (!event.target.closest('#held button')) { return; }
    const field = document.getElementById('reading');
    turn.aside = field.value;
    field.value = turn.held.reading;
    document.getElementById('reference').value = turn.held.reference;
    turn.held = null;
    showTurn();
    field.focus();
    field.select();
  });

  window.addEventListener('beforeunload', (event) => {
    if (turn.waiting.length > 0 || turn.held !== null || turn.aside) { event.preventDefault(); }
  });

  // a digit typed while nothing to type into has the focus is the beginning of a reading
  document.addEventListener('keydown', (event) => {
    const field = document.getElementById('reading');
    const here = document.activeElement;
    if (!field || event.ctrlKey || event.metaKey || event.altKey || !/^[-+.,0-9\u2212]$/.test(event.key)) { return; }
    if (here && here.matches('input:not([type=checkbox]), textarea, select')) { return; }
    field.focus();
    field.setSelectionRange(field.value.length, field.value.length);
  });

  function copyAttributes(to, from) {
    [...to.attributes].forEach((one) => { if (!from.hasAttribute(one.name)) { to.removeAttribute(one.name); } });
    [...from.attributes].forEach((one) => {
      if (to.getAttribute(one.name) !== one.value) { to.setAttribute(one.name, one.value); }
    });
  }

  /** Replaces everything around one element that stays, and returns the elements that are new. */
  function replaceAround(stays, old, fresh, freshStays) {
    copyAttributes(old, fresh);
    if (old === stays) { return []; }
    const oldWay = [...old.childNodes].find((node) => node.contains(stays));
    const all = [...fresh.childNodes];
    const at = all.findIndex((node) => node.contains(freshStays));
    [...old.childNodes].forEach((node) => { if (node !== oldWay) { node.remove(); } });
    oldWay.before(...all.slice(0, at));
    oldWay.after(...all.slice(at + 1));
    return [...all.slice(0, at), ...all.slice(at + 1), ...replaceAround(stays, oldWay, all[at], freshStays)]
      .filter((node) => node.nodeType === Node.ELEMENT_NODE);
  }

  /** Notes what a person has in hand beside the reading, and returns what puts it back after a change around it. */
  function remember(answered) {
    const here = document.activeElement;
    const marks = here && here.matches('input[type=text], textarea') ? [here.selectionStart, here.selectionEnd] : null;
    const typed = new Map();
    const unfolded = [];
    document.querySelectorAll('#bench input[type=text]').forEach((field) => {
      if (field.id === 'reading' || field.form === answered) { return; }
      if (field.value && field.value !== field.defaultValue) { typed.set(field.id, field.value); }
      const folded = field.closest('details');
      if (folded && folded.open) { unfolded.push(field.id); }
    });
    return () => {
      typed.forEach((text, id) => {
        const field = document.getElementById(id);
        if (field) { field.value = text; }
      });
      [...typed.keys(), ...unfolded].forEach((id) => {
        const field = document.getElementById(id);
        const folded = field && field.closest('details');
        if (folded) { folded.open = true; }
      });
      if (!here || here.isConnected) { return; }
      const again = (here.id && document.getElementById(here.id)) || document.getElementById('reading');
      if (!again) { return; }
      again.focus();
      if (marks && again.id === here.id) { again.setSelectionRange(marks[0], marks[1]); }
    };
  }

  /** Shows the sheet of an answer. What stands in fields stays there, but for the form that was answered. */
  function exchange(page, answered) {
    const sheet = document.getElementById('bench');
    const fresh = page.getElementById('bench');
    // two answers may have overtaken each other
    if (Number(fresh.dataset.seq) < Number(sheet.dataset.seq)) { return; }
    const restore = remember(answered);
    const reading = document.getElementById('reading');
    const freshReading = page.getElementById('reading');
    if (reading && freshReading) {
      const text = reading.value;
      replaceAround(reading, sheet, fresh, freshReading).forEach((node) => window.htmx.process(node));
      if (reading.value !== text) { reading.value = text; }
    } else {
      sheet.replaceWith(fresh);
      window.htmx.process(fresh);
    }
    document.title = page.title;
    restore();
    showTurn();
    lead(document);
  }

  // The answer for a line follows the slider at once, one request at a time; typed numbers, which are half typed for a
  // while, and what takes the server longer follow when they rest.
  const TYPED_MS = 250;
  const REST_MS = 450;
  let asking = 0;
  let resting = 0;

  document.addEventListener('input', (event) => {
    const form = event.target.form;
    if (!form || form.id !== 'lineform') { return; }
    clearTimeout(asking);
    const ask = () => document.getElementById('lineform').dispatchEvent(new Event('ask'));
    if (event.target.type === 'range') { ask(); } else { asking = setTimeout(ask, TYPED_MS); }
  });

  /** Fetches a part of the page about the line shown, in place of the one about the line before. */
  function refresh(id, address) {
    const part = document.getElementById(id);
    part.classList.add('stale');
    return () => window.htmx.ajax('GET', address, { target: part, source: part, swap: 'innerHTML' })
      .then(() => part.classList.remove('stale'));
  }

  /** Shows the answer for a line around the field or slider that a person has in hand. */
  function exchangeLine(page, fresh, sent) {
    const old = document.getElementById('line');
    const here = document.activeElement;
    const inside = old.contains(here);
    const twin = inside && here.id && here.matches('input, select') ? page.getElementById(here.id) : null;
    if (twin) {
      replaceAround(here, old, fresh, twin).forEach((node) => window.htmx.process(node));
    } else {
      old.replaceWith(fresh);
      window.htmx.process(fresh);
      const again = inside && document.getElementById(document.getElementById(here.id) ? here.id : 'tried');
      if (again) { again.focus(); }
    }
    document.title = page.title;
    document.getElementById('line-said').textContent =
      [...document.querySelectorAll('#line [data-said]')].map((one) => one.textContent).join(' ');
    if (sent) { lead(document); }
    const parts = [
      refresh('rest', page.getElementById('rest').dataset.address),
      refresh('charts', page.getElementById('charts').getAttribute('hx-get')),
    ];
    clearTimeout(resting);
    resting = setTimeout(() => parts[0]().then(parts[1]), REST_MS);
  }

  document.addEventListener('htmx:beforeSwap', (event) => {
    if (event.detail.target.id === 'line' && event.detail.shouldSwap) {
      const page = new DOMParser().parseFromString(event.detail.serverResponse, 'text/html');
      const fresh = page.getElementById('line');
      if (!fresh) { return; }
      event.detail.shouldSwap = false;
      const why = event.detail.requestConfig.triggeringEvent;
      exchangeLine(page, fresh, Boolean(why) && why.type === 'submit');
      return;
    }
    if (event.detail.target.id === 'live') {
      const seq = / data-seq="(\d+)"/.exec(event.detail.serverResponse);
      if (seq && Number(seq[1]) < Number(document.getElementById('bench').dataset.seq)) {
        event.detail.shouldSwap = false;
        return;
      }
      // news from another viewer must not take a form away under somebody's hands
      document.addEventListener('htmx:afterSettle', remember(null), { once: true });
      return;
    }
    if (event.detail.target.id !== 'bench' || !event.detail.shouldSwap) { return; }
    const page = new DOMParser().parseFromString(event.detail.serverResponse, 'text/html');
    if (!page.getElementById('bench')) { return; }
    event.detail.shouldSwap = false;
    exchange(page, event.detail.requestConfig.elt);
  });

  // the sheet that sent the reading shows it already: only the others fetch it
  let newest = 0;
  document.addEventListener('sse:changed', (event) => { newest = Number(event.detail.data) || Infinity; }, true);
  document.addEventListener('htmx:beforeRequest', (event) => {
    const sheet = document.getElementById('bench');
    if (event.target.id === 'live' && sheet && Number(sheet.dataset.seq) >= newest) { event.preventDefault(); }
  });

  window.addEventListener('pagehide', () => [...waiting.keys()].forEach((form) => keep(form, true)));

  // a page with problems is read from its summary
  function lead(root) {
    const first = root.querySelector('[role=alert] a[href^="#"]');
    const field = first && document.getElementById(first.getAttribute('href').slice(1));
    const told = field || root.querySelector('.meanwhile[tabindex]');
    if (told) { told.focus(); }
  }
  document.addEventListener('htmx:afterSettle', (event) => {
    // news from another viewer is on the page now: whoever records next has seen it
    const says = document.getElementById('says');
    if (says) { document.querySelectorAll('#bench input[name=seen]').forEach((one) => { one.value = says.dataset.seq; }); }
    lead(event.target);
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

  document.addEventListener('click', (event) => {
    if (event.target.closest('[data-print]')) { window.print(); }
  });

  // lists by keyboard: / goes to the search, the arrows go from row to row
  document.addEventListener('keydown', (event) => {
    const here = document.activeElement;
    if (event.ctrlKey || event.metaKey || event.altKey) { return; }
    const search = document.querySelector('[data-key="' + CSS.escape(event.key) + '"]');
    if (search && !(here && here.matches('input, textarea, select'))) {
      event.preventDefault();
      search.focus();
      search.select();
      return;
    }
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    const list = here && here.closest('[data-walk], [data-key]') && document.querySelector('[data-walk]');
    if (!step || !list) { return; }
    const rows = [...list.querySelectorAll('a.title')];
    const at = rows.indexOf(here.closest('[data-walk]') ? here.closest('tbody') && here.closest('tbody').querySelector('a.title') : null);
    const next = rows[at + step];
    if (next) {
      event.preventDefault();
      next.focus();
    }
  });

  // one request an address, however many figures wait for it
  const loading = {};
  function load(kind, address) {
    loading[address] = loading[address] || new Promise((resolve) => {
      const element = document.createElement(kind);
      element.onload = resolve;
      if (kind === 'script') { element.src = address; } else { element.rel = 'stylesheet'; element.href = address; }
      document.head.append(element);
    });
    return loading[address];
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
