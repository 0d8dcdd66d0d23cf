// Sends logs one after the other, as they are, and says how far each has come.
(function () {
  'use strict';
  const zone = document.getElementById('drop');
  const field = document.getElementById('logs');
  const list = document.getElementById('sending');
  const waiting = [];
  let busy = false;
  let failed = false;
  let request = null;

  function headers() {
    const token = document.querySelector('meta[name="form-token"]');
    return token ? { 'X-Form-Token': token.content } : {};
  }

  function entry(file) {
    const item = document.createElement('li');
    const text = document.createElement('span');
    text.textContent = file.name + ': ' + zone.dataset.waiting;
    const bar = document.createElement('progress');
    bar.max = 100;
    bar.value = 0;
    bar.setAttribute('aria-label', file.name);
    const stop = document.createElement('button');
    stop.type = 'button';
    stop.className = 'quiet';
    stop.textContent = zone.dataset.stop;
    item.append(text, bar, stop);
    list.append(item);
    return { file: file, item: item, text: text, bar: bar, stop: stop };
  }

  function add(files) {
    for (const file of files) {
      const one = entry(file);
      one.stop.addEventListener('click', () => {
        const at = waiting.indexOf(one);
        if (at >= 0) { waiting.splice(at, 1); ended(one, zone.dataset.stopped, true); } else if (request) { request.abort(); }
      });
      waiting.push(one);
    }
    next();
  }

  function ended(one, text, wrong) {
    one.bar.remove();
    one.stop.remove();
    one.text.textContent = text;
    one.item.className = wrong ? 'problem' : '';
    failed = failed || wrong;
  }

  function next() {
    if (busy) { return; }
    const one = waiting.shift();
    if (!one) {
      // what went wrong stays on the page until it was read; everything else leads on
      if (list.querySelector('li:not(.problem)') && !failed) { location.assign(zone.dataset.then); }
      failed = false;
      return;
    }
    busy = true;
    request = new XMLHttpRequest();
    request.open('POST', zone.dataset.send + '?name=' + encodeURIComponent(one.file.name));
    request.setRequestHeader('Content-Type', 'application/octet-stream');
    Object.entries(headers()).forEach(([name, value]) => request.setRequestHeader(name, value));
    let told = -1;
    request.upload.addEventListener('progress', (event) => {
      if (!event.lengthComputable) { return; }
      const share = Math.floor(100 * event.loaded / event.total);
      one.bar.value = share;
      // a voice that reads every hundredth would never stop
      if (Math.floor(share / 10) !== told) {
        told = Math.floor(share / 10);
        one.text.textContent = one.file.name + ': ' + zone.dataset.sending.replace('{}', share);
      }
    });
    const over = (text, wrong) => { busy = false; request = null; ended(one, text, wrong); next(); };
    request.addEventListener('load', () => {
      const html = (request.getResponseHeader('Content-Type') || '').startsWith('text/html');
      over(html ? one.file.name + ': ' + zone.dataset.lost : request.responseText, request.status !== 200);
    });
    request.addEventListener('error', () => over(one.file.name + ': ' + zone.dataset.lost, true));
    request.addEventListener('abort', () => over(one.file.name + ': ' + zone.dataset.stopped, true));
    request.send(one.file);
  }

  field.addEventListener('change', () => { add(field.files); field.value = ''; });
  ['dragenter', 'dragover'].forEach((kind) => zone.addEventListener(kind, (event) => {
    event.preventDefault();
    zone.classList.add('over');
  }));
  ['dragleave', 'drop'].forEach((kind) => zone.addEventListener(kind, () => zone.classList.remove('over')));
  zone.addEventListener('drop', (event) => { event.preventDefault(); add(event.dataTransfer.files); });
  // a file dropped beside the zone would make the browser leave the page
  ['dragover', 'drop'].forEach((kind) => window.addEventListener(kind, (event) => event.preventDefault()));

  // an answer that was on its way while somebody typed on would bring the older text back
  document.addEventListener('input', (event) => {
    const form = event.target.form;
    if (form && form.dataset.live !== undefined && event.target.type === 'text') { htmx.trigger(form, 'htmx:abort'); }
  });
})();
