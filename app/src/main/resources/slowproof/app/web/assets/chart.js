// Paints a chart that the server described: axes, and layers from the bottom up.
window.slowproofChart = function (figure) {
  'use strict';
  const chart = JSON.parse(figure.dataset.chart);
  const points = chart.layers.filter((layer) => layer.kind === 'points');
  const face = '14px "Serif 4", Georgia, serif';
  let plot = null;

  function colour(name) {
    return getComputedStyle(document.documentElement).getPropertyValue('--' + name).trim();
  }

  function written(value) {
    return String(Number(value.toPrecision(5))).replace('.', chart.mark).replace('-', '\u2212');
  }

  // a symbol with its centre at x, y; unit: one CSS pixel
  function symbol(context, layer, x, y, unit) {
    const tone = colour(layer.tone);
    context.strokeStyle = tone;
    context.fillStyle = tone;
    context.lineWidth = 1.8 * unit;
    const r = { disc: 5, ring: 5, cross: 5, diamond: 9, triangle: 8, speck: 2 }[layer.symbol] * unit;
    context.beginPath();
    if (layer.symbol === 'cross') {
      context.moveTo(x - r, y - r); context.lineTo(x + r, y + r);
      context.moveTo(x + r, y - r); context.lineTo(x - r, y + r);
      context.stroke();
    } else if (layer.symbol === 'diamond') {
      context.moveTo(x, y - r); context.lineTo(x + r, y); context.lineTo(x, y + r); context.lineTo(x - r, y);
      context.closePath();
      context.stroke();
    } else if (layer.symbol === 'triangle') {
      context.moveTo(x, y - r); context.lineTo(x + 0.87 * r, y + 0.5 * r); context.lineTo(x - 0.87 * r, y + 0.5 * r);
      context.closePath();
      context.stroke();
    } else {
      context.arc(x, y, r, 0, 2 * Math.PI);
      if (layer.symbol === 'ring') { context.fillStyle = colour('paper'); context.fill(); context.stroke(); } else { context.fill(); }
    }
  }

  function paint(u) {
    const context = u.ctx;
    const unit = devicePixelRatio || 1;
    const box = u.bbox;
    const across = (value) => u.valToPos(value, 'x', true);
    const up = (value) => u.valToPos(value, 'y', true);
    const stripe = (low, high, upright, tone, strength) => {
      context.globalAlpha = strength;
      context.fillStyle = colour(tone);
      if (upright) { context.fillRect(across(low), box.top, across(high) - across(low), box.height); } else { context.fillRect(box.left, up(high), box.width, up(low) - up(high)); }
      context.globalAlpha = 1;
    };
    const slants = (left, top, right, bottom, tone) => {
      context.globalAlpha = 0.6;
      context.strokeStyle = colour(tone);
      context.lineWidth = 0.6 * unit;
      context.beginPath();
      for (let foot = left - (bottom - top); foot < right; foot += 7 * unit) {
        const start = Math.max(foot, left);
        const end = Math.min(foot + bottom - top, right);
        if (start < end) { context.moveTo(start, bottom - (start - foot)); context.lineTo(end, bottom - (end - foot)); }
      }
      context.stroke();
      context.globalAlpha = 1;
    };
    // slanting lines tell the interval of a marked value from a band where there is no colour
    const hatch = (low, high, upright, tone) => {
      const left = upright ? Math.max(across(low), box.left) : box.left;
      const right = upright ? Math.min(across(high), box.left + box.width) : box.left + box.width;
      const top = upright ? box.top : Math.max(up(high), box.top);
      const bottom = upright ? box.top + box.height : Math.min(up(low), box.top + box.height);
      slants(left, top, right, bottom, tone);
    };
    const paints = {
      region: (layer) => stripe(layer.low, layer.high, true, layer.tone, 0.12),
      // the text of a row stands above its bar: beside the axis, long words would leave the bars no room
      bars: (layer) => {
        const row = box.height / (chart.y.high - chart.y.low);
        const tall = 0.4 * row;
        context.textAlign = 'left';
        context.textBaseline = 'alphabetic';
        context.font = Math.min(14 * unit, 0.5 * row) + 'px "Serif 4", Georgia, serif';
        layer.bars.forEach((bar) => {
          const bottom = box.top + row * (bar.row + 0.97);
          context.globalAlpha = layer.hatched ? 0.22 : 0.75;
          context.fillStyle = colour(layer.tone);
          context.fillRect(across(0), bottom - tall, across(bar.length) - across(0), tall);
          context.globalAlpha = 1;
          if (layer.hatched) { slants(across(0), bottom - tall, across(bar.length), bottom, layer.tone); }
          context.strokeStyle = colour(layer.tone);
          context.lineWidth = unit;
          context.strokeRect(across(0), bottom - tall, across(bar.length) - across(0), tall);
          context.fillStyle = colour('ink');
          context.fillText(bar.label, box.left + 4 * unit, bottom - tall - 0.1 * row);
        });
      },
      guide: (layer) => {
        if (layer.low !== null && layer.high !== null) {
          stripe(layer.low, layer.high, layer.upright, layer.tone, 0.22);
          hatch(layer.low, layer.high, layer.upright, layer.tone);
        }
        context.strokeStyle = colour(layer.tone);
        context.lineWidth = 1.5 * unit;
        context.setLineDash(layer.dashes.map((length) => length * unit));
        context.beginPath();
        if (layer.upright) { context.moveTo(across(layer.at), box.top); context.lineTo(across(layer.at), box.top + box.height); } else { context.moveTo(box.left, up(layer.at)); context.lineTo(box.left + box.width, up(layer.at)); }
        context.stroke();
        context.setLineDash([]);
      },
      band: (layer) => {
        context.globalAlpha = 0.24;
        context.fillStyle = colour(layer.tone);
        context.beginPath();
        layer.places.forEach((place, i) => (i ? context.lineTo(across(place[0]), up(place[3])) : context.moveTo(across(place[0]), up(place[3]))));
        layer.places.slice().reverse().forEach((place) => context.lineTo(across(place[0]), up(place[2])));
        context.closePath();
        context.fill();
        context.globalAlpha = 0.6;
        context.strokeStyle = colour(layer.tone);
        context.lineWidth = 0.8 * unit;
        [2, 3].forEach((end) => {
          context.beginPath();
          layer.places.forEach((place, i) => (i ? context.lineTo(across(place[0]), up(place[end])) : context.moveTo(across(place[0]), up(place[end]))));
          context.stroke();
        });
        context.globalAlpha = 1;
      },
      line: (layer) => {
        context.strokeStyle = colour(layer.tone);
        context.lineWidth = 1.8 * unit;
        context.setLineDash(layer.dashes.map((length) => length * unit));
        context.beginPath();
        let pen = false;
        layer.places.forEach((place) => {
          if (place[1] === null) { pen = false; return; }
          if (pen) { context.lineTo(across(place[0]), up(place[1])); } else { context.moveTo(across(place[0]), up(place[1])); }
          pen = true;
        });
        context.stroke();
        context.setLineDash([]);
      },
      points: (layer) => layer.places.forEach((place) => {
        const x = across(place[0]);
        if (place.length > 2) {
          context.strokeStyle = colour(layer.tone);
          context.lineWidth = 1.5 * unit;
          context.beginPath();
          [place[2], place[3]].forEach((end) => { context.moveTo(x - 5 * unit, up(end)); context.lineTo(x + 5 * unit, up(end)); });
          context.moveTo(x, up(place[2])); context.lineTo(x, up(place[3]));
          context.stroke();
        }
        symbol(context, layer, x, up(place[1]), unit);
      }),
    };
    context.save();
    context.beginPath();
    context.rect(box.left, box.top, box.width, box.height);
    context.clip();
    if (!chart.y.decades && !rows) {
      context.strokeStyle = colour('rule-strong');
      context.lineWidth = unit;
      context.beginPath(); context.moveTo(box.left, up(0)); context.lineTo(box.left + box.width, up(0)); context.stroke();
    }
    chart.layers.forEach((layer) => paints[layer.kind](layer));
    context.restore();
  }

  // the legend: a drawing of each layer and its name
  function legend() {
    const list = document.createElement('ul');
    list.className = 'legend';
    const unit = devicePixelRatio || 1;
    chart.layers.filter((layer) => layer.name).forEach((layer) => {
      const item = document.createElement('li');
      const drawing = document.createElement('canvas');
      drawing.width = 34 * unit;
      drawing.height = 18 * unit;
      drawing.setAttribute('aria-hidden', 'true');
      const context = drawing.getContext('2d');
      const tone = colour(layer.tone);
      if (layer.kind === 'points') {
        symbol(context, layer, 17 * unit, 9 * unit, unit);
      } else if (layer.kind === 'band' || layer.kind === 'region' || layer.kind === 'bars' || (layer.kind === 'guide' && layer.low !== null)) {
        context.globalAlpha = layer.hatched === false ? 0.75 : 0.24;
        context.fillStyle = tone;
        context.fillRect(2 * unit, 4 * unit, 30 * unit, 10 * unit);
        if (layer.hatched || layer.kind === 'guide') {
          context.globalAlpha = 0.8;
          context.strokeStyle = tone;
          context.beginPath();
          for (let foot = 2; foot < 26; foot += 6) { context.moveTo(foot * unit, 14 * unit); context.lineTo((foot + 10) * unit, 4 * unit); }
          context.stroke();
        }
      } else {
        context.strokeStyle = tone;
        context.lineWidth = 2 * unit;
        context.setLineDash(layer.dashes.map((length) => length * unit));
        context.beginPath(); context.moveTo(2 * unit, 9 * unit); context.lineTo(32 * unit, 9 * unit); context.stroke();
      }
      item.append(drawing, layer.name);
      list.append(item);
    });
    return list;
  }

  // the values of one point as words, for pointer and arrow keys
  const places = points.flatMap((layer) => layer.places.map((place) => ({ layer: layer, place: place })))
    .sort((a, b) => a.place[0] - b.place[0] || a.place[1] - b.place[1]);
  const said = document.createElement('p');
  said.className = 'said hint';
  said.setAttribute('role', 'status');
  let chosen = -1;

  function say(i) {
    chosen = i;
    const at = places[i];
    const bar = at.place.length > 2 ? ' \u00b1 ' + written((at.place[3] - at.place[2]) / 2) : '';
    said.textContent = at.layer.name + ' \u00b7 ' + chart.x.label + ': ' + written(at.place[0]) + ' \u00b7 ' + chart.y.label + ': ' + written(at.place[1]) + bar;
  }

  function nearest(u) {
    let best = -1;
    let least = 30 * 30;
    places.forEach((at, i) => {
      const dx = u.valToPos(at.place[0], 'x') - u.cursor.left;
      const dy = u.valToPos(at.place[1], 'y') - u.cursor.top;
      if (dx * dx + dy * dy < least) { least = dx * dx + dy * dy; best = i; }
    });
    if (best >= 0 && best !== chosen) { say(best); }
  }

  figure.addEventListener('keydown', (event) => {
    const step = { ArrowRight: 1, ArrowLeft: -1, Home: -places.length, End: places.length }[event.key];
    if (step && places.length) {
      event.preventDefault();
      say(Math.max(0, Math.min(places.length - 1, chosen + step)));
    }
  });

  function axis(described, size) {
    const made = { font: face, labelFont: face, stroke: colour('ink'), grid: { stroke: colour('rule') }, ticks: { stroke: colour('rule-strong') }, size: size, values: (u, all) => all.map(written) };
    if (described.decades) { made.splits = () => described.ticks; made.filter = (u, all) => all; }
    return made;
  }

  function scale(described) {
    return described.decades
      ? { time: false, distr: 3, log: 10, range: () => [described.low, described.high] }
      : { time: false, range: () => [described.low, described.high] };
  }

  // the name of the vertical axis stands above the plot, where it has the whole width: beside it, a low chart would cut it
  const up = document.createElement('p');
  up.className = 'axis';
  up.textContent = chart.y.label;
  if (chart.y.label) { figure.append(up); }
  const rows = chart.y.label ? 0 : chart.y.high - chart.y.low;

  function build() {
    if (plot) { plot.destroy(); figure.querySelector('.legend').remove(); }
    plot = new uPlot({
      width: figure.clientWidth,
      height: rows ? 70 + 40 * rows : Math.max(260, Math.min(400, figure.clientWidth * 0.42)),
      legend: { show: false },
      cursor: { x: false, y: false, points: { show: false }, drag: { x: false, y: false } },
      scales: { x: scale(chart.x), y: scale(chart.y) },
      axes: [Object.assign(axis(chart.x, 44), { label: chart.x.label }), rows ? { show: false } : axis(chart.y, 62)],
      series: [{}, { show: true, paths: () => null, points: { show: false } }],
      hooks: { draw: [paint], setCursor: [nearest] },
    }, [[chart.x.low, chart.x.high], [chart.y.low, chart.y.high]], figure);
    figure.append(legend(), said);
  }

  build();
  let resizing = 0;
  // a figure that was taken from the page needs no more drawing, and must not be kept alive by its listeners
  const life = new AbortController();
  function again() {
    if (figure.isConnected) { build(); } else { life.abort(); plot.destroy(); }
  }
  window.addEventListener('resize', () => { clearTimeout(resizing); resizing = setTimeout(again, 120); }, { signal: life.signal });
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', again, { signal: life.signal });
};
