// Draws error against speed: means with their uncertainty, single passes, the limit.
window.slowproofChart = function (figure) {
  'use strict';
  const data = JSON.parse(figure.dataset.chart);
  const decimal = figure.dataset.mark;
  let plot = null;

  function colour(name) {
    return getComputedStyle(document.documentElement).getPropertyValue('--' + name).trim();
  }

  function written(value) {
    return String(Number(value.toPrecision(6))).replace('.', decimal).replace('-', '\u2212');
  }

  function extent() {
    const speeds = data.conditions.map((c) => c[0]);
    const errors = [0];
    data.conditions.forEach((c) => {
      errors.push(c[1] - c[2], c[1] + c[2]);
      if (c[3] !== null) { errors.push(c[3], -c[3]); }
    });
    data.passes.forEach((p) => errors.push(p[1]));
    const low = Math.min.apply(null, errors);
    const high = Math.max.apply(null, errors);
    const room = 0.08 * (high - low || 1);
    return {
      x: [Math.min.apply(null, speeds) / 1.35, Math.max.apply(null, speeds) * 1.35],
      y: [low - room, high + room],
    };
  }

  const shown = extent();

  function ticks(u, axis, low, high) {
    const all = [];
    for (let decade = Math.floor(Math.log10(low)); decade <= Math.ceil(Math.log10(high)); decade++) {
      [1, 2, 5].forEach((digit) => {
        const value = Number((digit * Math.pow(10, decade)).toPrecision(3));
        if (value >= low && value <= high) { all.push(value); }
      });
    }
    return all;
  }

  function mark(context, kind, x, y, size) {
    context.beginPath();
    if (kind === 'does not conform') {
      context.moveTo(x - size, y - size); context.lineTo(x + size, y + size);
      context.moveTo(x + size, y - size); context.lineTo(x - size, y + size);
      context.stroke();
    } else {
      context.arc(x, y, size, 0, 2 * Math.PI);
      if (kind === 'conforms') { context.fill(); } else { context.fillStyle = colour('paper'); context.fill(); context.stroke(); }
    }
  }

  function paint(u) {
    const context = u.ctx;
    const ratio = devicePixelRatio || 1;
    const at = (c) => [u.valToPos(c[0], 'x', true), u.valToPos(c[1], 'y', true)];
    context.save();
    context.lineWidth = 1.5 * ratio;
    context.strokeStyle = colour('ink');
    context.setLineDash([7 * ratio, 5 * ratio]);
    [1, -1].forEach((sign) => {
      const edge = data.conditions.filter((c) => c[3] !== null);
      if (edge.length === 0) { return; }
      context.beginPath();
      context.moveTo(u.bbox.left, u.valToPos(sign * edge[0][3], 'y', true));
      edge.forEach((c) => context.lineTo(u.valToPos(c[0], 'x', true), u.valToPos(sign * c[3], 'y', true)));
      context.lineTo(u.bbox.left + u.bbox.width, u.valToPos(sign * edge[edge.length - 1][3], 'y', true));
      context.stroke();
    });
    context.setLineDash([]);
    context.strokeStyle = colour('rule-strong');
    context.beginPath();
    context.moveTo(u.bbox.left, u.valToPos(0, 'y', true));
    context.lineTo(u.bbox.left + u.bbox.width, u.valToPos(0, 'y', true));
    context.stroke();
    data.passes.forEach((p) => {
      const place = at(p);
      context.strokeStyle = colour('muted');
      context.fillStyle = colour('muted');
      context.globalAlpha = p[2] ? 0.75 : 0.4;
      mark(context, p[2] ? 'conforms' : 'does not conform', place[0] + 10 * ratio, place[1], 2.2 * ratio);
    });
    context.globalAlpha = 1;
    data.conditions.forEach((c) => {
      const place = at(c);
      const tone = c[4] === 'conforms' ? 'good' : c[4] === 'does not conform' ? 'bad' : 'ink';
      context.strokeStyle = colour(tone);
      context.fillStyle = colour(tone);
      context.lineWidth = 2 * ratio;
      context.beginPath();
      [c[1] - c[2], c[1] + c[2]].forEach((end) => {
        const y = u.valToPos(end, 'y', true);
        context.moveTo(place[0] - 6 * ratio, y); context.lineTo(place[0] + 6 * ratio, y);
      });
      context.moveTo(place[0], u.valToPos(c[1] - c[2], 'y', true));
      context.lineTo(place[0], u.valToPos(c[1] + c[2], 'y', true));
      context.stroke();
      context.lineWidth = 2.6 * ratio;
      mark(context, c[4], place[0], place[1], 6 * ratio);
    });
    context.restore();
  }

  function build() {
    if (plot) { plot.destroy(); }
    const font = '14px "Serif 4", Georgia, serif';
    const axis = { font: font, labelFont: font, stroke: colour('ink'), grid: { stroke: colour('rule') }, ticks: { stroke: colour('rule-strong') } };
    plot = new uPlot({
      width: figure.clientWidth,
      height: Math.max(260, Math.min(380, figure.clientWidth * 0.42)),
      legend: { show: false },
      cursor: { show: false },
      scales: {
        x: { time: false, distr: 3, log: 10, range: () => shown.x },
        y: { range: () => shown.y },
      },
      axes: [
        Object.assign({}, axis, { label: figure.dataset.x, splits: ticks, filter: (u, all) => all, values: (u, all) => all.map(written), size: 44 }),
        Object.assign({}, axis, { label: figure.dataset.y, values: (u, all) => all.map(written), size: 70 }),
      ],
      series: [{}, { show: true, paths: () => null, points: { show: false } }],
      hooks: { draw: [paint] },
    }, [data.conditions.map((c) => c[0]), data.conditions.map((c) => c[1])], figure);
  }

  build();
  let resizing = 0;
  window.addEventListener('resize', () => { clearTimeout(resizing); resizing = setTimeout(build, 120); });
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', build);
};
