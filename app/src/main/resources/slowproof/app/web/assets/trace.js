// Draws a recording and looks closer where the person wants: each window is asked of the server, with its peaks kept.
(function () {
  'use strict';
  const own = document.getElementById('trace-script');
  const face = '14px "Serif 4", Georgia, serif';
  let library = null;

  function load() {
    if (!library) {
      const style = document.createElement('link');
      style.rel = 'stylesheet';
      style.href = own.dataset.style;
      document.head.append(style);
      library = new Promise((done) => {
        const script = document.createElement('script');
        script.src = own.dataset.uplot;
        script.addEventListener('load', done);
        document.head.append(script);
      });
    }
    return library;
  }

  function colour(name) {
    return getComputedStyle(document.documentElement).getPropertyValue('--' + name).trim();
  }

  function begin(box) {
    const around = JSON.parse(box.dataset.around);
    const figure = box.querySelector('figure');
    const said = box.querySelector('[role=status]');
    const words = box.dataset;
    const whole = [around.from, around.to > around.from ? around.to : around.from + 1];
    const shortest = Math.max((whole[1] - whole[0]) / 1e6, 0.01);
    const view = { from: whole[0], to: whole[1], low: 0, high: 1, data: null };
    let plot = null;
    let asking = null;

    function written(value) {
      return String(Number(value.toPrecision(6))).replace('.', around.mark).replace('-', '\u2212');
    }

    function rough(value) {
      return written(Number(value.toPrecision(4)));
    }

    function inView() {
      return around.passes.map((pass, i) => ({ number: i + 1, from: pass[0], to: pass[1], flags: pass[2] }))
        .filter((pass) => pass.to > view.from && pass.from < view.to);
    }

    function ends() {
      const values = view.data.reference[1].concat(view.data.indicated[1]).filter((value) => value !== null);
      let low = 0;
      let high = 0;
      values.forEach((value) => { low = Math.min(low, value); high = Math.max(high, value); });
      return [low, high];
    }

    function tell() {
      const passes = inView();
      const [low, high] = ends();
      const doubts = passes.filter((pass) => pass.flags.length)
        .slice(0, 4).map((pass) => pass.number + ' (' + pass.flags.join(', ') + ')');
      const listed = passes.length === 0 ? words.none
        : passes.length === 1 ? words.pass.replace('%n', passes[0].number)
          : words.passes.replace('%a', passes[0].number).replace('%b', passes[passes.length - 1].number);
      said.textContent = words.said.replace('%from', written(view.from)).replace('%to', written(view.to))
        .replace('%low', rough(low)).replace('%high', rough(high)).replace('%passes', listed)
        + (doubts.length ? ' ' + words.doubts.replace('%list', doubts.join('; ')) : '');
    }

    function show(from, to) {
      const span = Math.min(Math.max(to - from, shortest), whole[1] - whole[0]);
      view.from = Math.min(Math.max(from, whole[0]), whole[1] - span);
      view.to = view.from + span;
      if (asking) { asking.abort(); }
      asking = new AbortController();
      const pieces = Math.max(200, Math.min(2000, Math.round(figure.clientWidth)));
      fetch(words.trace + '?from=' + view.from + '&to=' + view.to + '&pieces=' + pieces, { signal: asking.signal })
        .then((answer) => { if (!answer.ok) { throw new Error(String(answer.status)); } return answer.json(); })
        .then((data) => { view.data = data; draw(); })
        .catch((error) => { if (error.name !== 'AbortError') { said.textContent = words.lost; } });
    }

    function draw() {
      const [low, high] = ends();
      const room = 0.08 * (high - low || 1);
      view.low = low - room;
      view.high = high + room;
      if (!plot) { build(); } else { plot.setData([[view.from, view.to], [view.low, view.high]]); }
      figure.dataset.from = view.from;
      figure.dataset.to = view.to;
      tell();
    }

    function paint(u) {
      const context = u.ctx;
      const unit = devicePixelRatio || 1;
      const area = u.bbox;
      const across = (value) => u.valToPos(value, 'x', true);
      const up = (value) => u.valToPos(value, 'y', true);
      const line = (track, tone, width, dashes) => {
        context.strokeStyle = colour(tone);
        context.lineWidth = width * unit;
        context.setLineDash(dashes.map((length) => length * unit));
        context.beginPath();
        let pen = false;
        track[0].forEach((time, i) => {
          const value = track[1][i];
          if (value === null) { pen = false; return; }
          if (pen) { context.lineTo(across(time), up(value)); } else { context.moveTo(across(time), up(value)); }
          pen = true;
        });
        context.stroke();
        context.setLineDash([]);
      };
      context.save();
      context.beginPath();
      context.rect(area.left, area.top, area.width, area.height);
      context.clip();
      context.font = (13 * unit) + 'px "Serif 4", Georgia, serif';
      context.textAlign = 'center';
      inView().forEach((pass) => {
        const left = Math.max(across(pass.from), area.left);
        const right = Math.min(across(pass.to), area.left + area.width);
        context.globalAlpha = 0.12;
        context.fillStyle = colour('accent');
        context.fillRect(left, area.top, right - left, area.height);
        context.globalAlpha = 1;
        if (right - left > 18 * unit) {
          context.fillStyle = colour('muted');
          context.fillText(String(pass.number), (left + right) / 2, area.top + area.height - 6 * unit);
        }
        if (pass.flags.length) {
          const x = (left + right) / 2;
          const y = area.top + 12 * unit;
          const r = 7 * unit;
          context.strokeStyle = colour('open');
          context.lineWidth = 1.8 * unit;
          context.beginPath();
          context.moveTo(x, y - r); context.lineTo(x + r, y); context.lineTo(x, y + r); context.lineTo(x - r, y);
          context.closePath();
          context.stroke();
        }
      });
      context.strokeStyle = colour('bad');
      around.breaks.filter((gap) => gap[1] > view.from && gap[0] < view.to).forEach((gap) => {
        const left = Math.max(across(gap[0]), area.left);
        const right = Math.max(Math.min(across(gap[1]), area.left + area.width), left + unit);
        context.lineWidth = 0.8 * unit;
        context.beginPath();
        for (let foot = left - area.height; foot < right; foot += 7 * unit) {
          const start = Math.max(foot, left);
          const end = Math.min(foot + area.height, right);
          if (start < end) {
            context.moveTo(start, area.top + area.height - (start - foot));
            context.lineTo(end, area.top + area.height - (end - foot));
          }
        }
        context.moveTo(left, area.top); context.lineTo(left, area.top + area.height);
        context.moveTo(right, area.top); context.lineTo(right, area.top + area.height);
        context.stroke();
      });
      line(view.data.indicated, 'accent', 1.8, []);
      line(view.data.reference, 'ink', 1.4, [2, 3]);
      context.strokeStyle = colour('bad');
      context.lineWidth = 1.6 * unit;
      context.beginPath();
      view.data.lost.forEach((time) => {
        const x = across(time);
        const y = area.top + area.height - 26 * unit;
        const r = 4 * unit;
        context.moveTo(x - r, y - r); context.lineTo(x + r, y + r);
        context.moveTo(x + r, y - r); context.lineTo(x - r, y + r);
      });
      context.stroke();
      context.restore();
    }

    function axis(label, size) {
      return { font: face, labelFont: face, stroke: colour('ink'), grid: { stroke: colour('rule') }, ticks: { stroke: colour('rule-strong') }, label: label, size: size, values: (u, all) => all.map(written) };
    }

    function build() {
      if (plot) { plot.destroy(); }
      plot = new uPlot({
        width: figure.clientWidth,
        height: Math.max(260, Math.min(380, figure.clientWidth * 0.4)),
        legend: { show: false },
        cursor: { y: false, points: { show: false }, drag: { x: true, y: false, setScale: false } },
        scales: { x: { time: false, range: () => [view.from, view.to] }, y: { range: () => [view.low, view.high] } },
        axes: [axis(words.x, 44), axis(words.y, 70)],
        series: [{}, { show: true, paths: () => null, points: { show: false } }],
        hooks: {
          draw: [paint],
          setSelect: [(u) => {
            if (u.select.width > 4) {
              const from = u.posToVal(u.select.left, 'x');
              const to = u.posToVal(u.select.left + u.select.width, 'x');
              u.setSelect({ left: 0, top: 0, width: 0, height: 0 }, false);
              show(from, to);
            }
          }],
        },
      }, [[view.from, view.to], [view.low, view.high]], figure);
    }

    const moves = {
      in: () => zoom(0.5), out: () => zoom(2),
      left: () => show(view.from - 0.5 * (view.to - view.from), view.to - 0.5 * (view.to - view.from)),
      right: () => show(view.from + 0.5 * (view.to - view.from), view.to + 0.5 * (view.to - view.from)),
      whole: () => show(whole[0], whole[1]),
    };
    function zoom(factor) {
      const middle = (view.from + view.to) / 2;
      const half = factor * (view.to - view.from) / 2;
      show(middle - half, middle + half);
    }
    const keys = { '+': 'in', '=': 'in', '-': 'out', ArrowLeft: 'left', ArrowRight: 'right', Home: 'whole', 0: 'whole' };
    figure.addEventListener('keydown', (event) => {
      if (keys[event.key] && !event.ctrlKey && !event.metaKey && !event.altKey) {
        event.preventDefault();
        moves[keys[event.key]]();
      }
    });
    box.querySelectorAll('[data-zoom]').forEach((button) => button.addEventListener('click', () => moves[button.dataset.zoom]()));
    document.querySelectorAll('[data-show="' + box.id + '"]').forEach((button) => button.addEventListener('click', () => {
      const from = Number(button.dataset.from);
      const to = Number(button.dataset.to);
      show(from - 0.15 * (to - from), to + 0.15 * (to - from));
      figure.focus();
    }));
    let resizing = 0;
    window.addEventListener('resize', () => { clearTimeout(resizing); resizing = setTimeout(() => { if (view.data) { build(); } }, 120); });
    matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => { if (view.data) { build(); } });
    load().then(() => show(whole[0], whole[1]));
  }

  function look() {
    document.querySelectorAll('.trace:not([data-begun])').forEach((box) => { box.dataset.begun = 'yes'; begin(box); });
  }

  look();
  document.addEventListener('htmx:afterSettle', look);
})();
