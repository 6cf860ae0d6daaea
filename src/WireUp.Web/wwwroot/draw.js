// The drawing board: the picture of the plan, the track over it in millimetres of the plan, and the line that is being drawn. Pan and
// zoom are those of the plan. A line that is drawn lives here until it is finished; only then does it cross to the server.
import { curve, far, minus, plus, times } from './curve.js';
import { Board } from './board.js';
import { cornersOf, lineOf, make, nameOf, pathOf, set, sign } from './shapes.js';
import { nearest, placeOn } from './snap.js';

const reachOfEnd = 16; // on the screen
const reachOfLine = 11;

export function open(host, page) {
  return new DrawBoard(host, page);
}

class DrawBoard extends Board {
  constructor(host, page) {
    super(host, page);
    this.limits = [0.02, 400];
    this.tool = 'choose';
    this.points = [];
    this.hover = null;
    this.shift = null;
    this.ends = [];
    this.lines = [];
    this.svg = make('svg', { 'aria-hidden': 'true' });
    this.pictureGroup = make('g', { 'data-layer': 'picture' });
    this.linesGroup = make('g', { 'data-layer': 'lines' });
    this.draft = make('path', { class: 'draft' });
    this.marksGroup = make('g', { 'data-layer': 'marks' });
    this.svg.append(this.pictureGroup, this.linesGroup, this.draft, this.marksGroup);
    this.bar = document.createElement('div');
    this.bar.className = 'scalebar';
    this.cross = document.createElement('div');
    this.cross.className = 'cross';
    host.replaceChildren(this.svg, this.bar, this.cross);
    const on = (kind, act) => host.addEventListener(kind, act, { signal: this.stop.signal });
    on('dblclick', event => {
      event.preventDefault();
      if (this.isDrawing) this.finish();
    });
    on('pointerleave', () => {
      this.hover = null;
      this.sketch();
    });
  }

  get isDrawing() {
    return this.tool === 'curve' || this.tool === 'straight';
  }

  // The whole drawing anew; the line that is being drawn stays.
  show(plan) {
    this.plan = plan;
    this.ends = plan.ends;
    this.lines = plan.lines.map(line => ({ ...line, points: line.points.map(flip) }));
    this.linesGroup.replaceChildren(...this.lines.map(line => lineOf(line, line.piece === plan.chosen)));
    this.showPicture(plan.picture);
    this.renewed();
    this.put();
    if (!this.view) this.fit();
    this.draw();
  }

  showPicture(picture) {
    this.pictureGroup.removeAttribute('transform');
    if (!picture) {
      this.pictureGroup.replaceChildren();
      return;
    }

    const image = this.pictureGroup.firstElementChild ?? make('image', { preserveAspectRatio: 'none' });
    if (image.getAttribute('href') !== picture.address) image.setAttribute('href', picture.address);
    set(image, {
      x: picture.x,
      y: -picture.y - picture.height,
      width: picture.width,
      height: picture.height,
      opacity: picture.opacity,
      transform: `rotate(${-picture.turn} ${picture.x} ${-picture.y})`,
    });
    if (!image.parentNode) this.pictureGroup.append(image);
  }

  use(tool) {
    const isOther = (tool === 'curve' || tool === 'straight') !== this.isDrawing || tool === 'measure' || this.tool === 'measure';
    this.tool = tool;
    if (isOther) this.points = [];
    this.hover = null;
    this.host.dataset.tool = tool;
    this.sketch();
    this.count();
  }

  fit() {
    const all = [...this.lines.flatMap(line => line.points), ...this.points, ...cornersOf(this.plan?.picture)];
    if (all.length === 0) all.push({ x: 0, y: -1500 }, { x: 3000, y: 0 });
    const [left, right] = [Math.min(...all.map(at => at.x)), Math.max(...all.map(at => at.x))];
    const [top, bottom] = [Math.min(...all.map(at => at.y)), Math.max(...all.map(at => at.y))];
    const { clientWidth, clientHeight } = this.host;
    const scale = 1.15 * Math.max((right - left) / Math.max(clientWidth, 1), (bottom - top) / Math.max(clientHeight, 1), 0.05);
    this.view = { scale, x: (left + right - clientWidth * scale) / 2, y: (top + bottom - clientHeight * scale) / 2 };
    this.draw();
  }

  draw() {
    super.draw();
    if (!this.view || !this.bar) return;
    const wanted = 120 * this.view.scale;
    const power = 10 ** Math.floor(Math.log10(wanted));
    const length = [5, 2, 1].map(step => step * power).find(step => step <= wanted);
    this.thin();
    this.bar.style.width = `${length / this.view.scale}px`;
    this.bar.textContent = length >= 1000 ? `${length / 1000} m` : `${length} mm`;
  }

  // Corners that would lie on top of each other wait until they are looked at more closely.
  thin() {
    let last = null;
    const handles = [...this.marksGroup.querySelectorAll('.handle')];
    handles.forEach((handle, i) => {
      const isShown = !last || i === handles.length - 1 || far(last, handle.at) > 26 * this.view.scale;
      if (isShown) last = handle.at;
      handle.setAttribute('visibility', isShown ? 'visible' : 'hidden');
    });
  }

  // Signs that keep their size on the screen: ends, names, corners to drag.
  put() {
    const chosen = this.lines.filter(line => line.piece === this.plan.chosen);
    const handles = chosen.length === 1 && chosen[0].kind === 'section' ? chosen[0].points : [];
    const seen = new Set();
    const named = this.lines.filter(line => !seen.has(line.piece) && seen.add(line.piece));
    this.marksGroup.replaceChildren(
      ...this.ends.filter(end => end.open).map(end => sign({ x: end.x, y: -end.y }, 'end', [make('circle', { r: 5 })])),
      ...(named.length > 200 ? named.filter(line => line.piece === this.plan.chosen) : named).map(nameOf),
      ...handles.map((at, i) => {
        const handle = sign(at, 'handle', [make('circle', { r: 14 }), make('rect', { x: -6, y: -6, width: 12, height: 12 })]);
        handle.setAttribute('data-corner', i);
        return handle;
      }));
    this.sketch();
  }

  // The line that is being drawn, and where it would snap.
  sketch() {
    for (const old of this.marksGroup.querySelectorAll('.sketched')) old.remove();
    const next = this.hover && this.points.length > 0 ? [...this.points, this.hover] : this.points;
    const line = this.tool === 'measure' ? next : this.shape(next);
    this.draft.setAttribute('d', line.length > 1 ? pathOf(line) : '');
    const dots = this.points.map(at => sign(at, 'dot sketched', [make('circle', { r: 5 })]));
    const ring = this.hover?.snap ? [sign(this.hover, 'snap sketched', [make('circle', { r: 11 })])] : [];
    this.marksGroup.append(...dots, ...ring);
    this.draw();
  }

  // Where a point goes: to an end of track, to the beginning of the line itself, onto track; else where it was touched.
  snap(x, y) {
    const at = { x, y };
    const first = this.points[0];
    if (this.points.length > 2 && far(first, at) < reachOfEnd * this.view.scale) return { ...first, snap: 'start' };
    const ends = this.ends.map(end => ({ x: end.x, y: -end.y, dir: { x: end.dx, y: -end.dy }, snap: 'end' }));
    const end = nearest(ends, at, reachOfEnd * this.view.scale);
    if (end) return end;
    const places = this.lines.filter(line => line.kind === 'section').map(line => placeOn(line.points, at)).filter(place => place);
    return nearest(places, at, reachOfLine * this.view.scale) ?? at;
  }

  shape(points) {
    if (this.tool !== 'curve') return points;
    const isClosed = points.length > 3 && points.at(-1).snap === 'start';
    return curve(points, isClosed);
  }

  touch(event, x, y) {
    if (this.tool === 'choose') {
      const found = document.elementFromPoint(event.clientX, event.clientY);
      this.page.invokeMethodAsync('Touched', found?.closest('[data-of]')?.getAttribute('data-of') ?? '');
    } else if (this.tool === 'measure') {
      this.measure({ x, y });
    } else if (this.isDrawing) {
      this.add(this.snap(x, y));
    }
  }

  add(at) {
    const last = this.points.at(-1);
    if (last && far(last, at) < 3 * this.view.scale) return;
    this.points.push(at);
    if (at.snap === 'start') this.finish();
    else {
      this.sketch();
      this.count();
    }
  }

  measure(at) {
    if (this.points.length > 1) this.points = [];
    this.points.push(at);
    this.sketch();
    if (this.points.length === 2) {
      const [a, b] = this.points;
      this.page.invokeMethodAsync('Measured', far(a, b));
    }
  }

  finish() {
    if (!this.isDrawing || this.points.length < 2) return;
    this.hover = null;
    const line = this.shape(this.points).map(at => [round(at.x), round(-at.y)]);
    this.page.invokeMethodAsync('Drawn', line);
  }

  back() {
    this.points.pop();
    this.sketch();
    this.count();
  }

  clear() {
    this.points = [];
    this.hover = null;
    this.sketch();
    this.count();
  }

  count() {
    this.page.invokeMethodAsync('Counted', this.points.length);
  }

  down(event) {
    super.down(event);
    if (this.pointers.size === 1) this.dragged = this.tool === 'choose' ? event.target.closest('.handle') : null;
  }

  move(event) {
    super.move(event);
    if (!this.view || this.pointers.size > 0 || this.tool === 'choose' || this.tool === 'picture' || event.pointerType === 'touch') return;
    const { x, y } = this.place(event);
    this.hover = this.tool === 'measure' ? { x, y } : this.snap(x, y);
    this.sketch();
  }

  // With the tool for it a drag moves the picture and not the board; where it comes to lie is told once it is let go.
  pan(last, now) {
    if (this.tool !== 'picture' || !this.plan?.picture) {
      super.pan(last, now);
      return;
    }

    this.shift = plus(this.shift ?? { x: 0, y: 0 }, times(minus(now, last), this.view.scale));
    this.pictureGroup.setAttribute('transform', `translate(${this.shift.x} ${this.shift.y})`);
  }

  up(event) {
    super.up(event);
    if (!this.shift || this.pointers.size > 0) return;
    this.page.invokeMethodAsync('PictureMoved', round(this.shift.x), round(-this.shift.y));
    this.shift = null;
  }

  drag(event) {
    const { x, y } = this.place(event);
    this.dragged.at = { x, y };
    const corner = Number(this.dragged.getAttribute('data-corner'));
    const line = this.lines.find(each => each.piece === this.plan.chosen);
    const group = [...this.linesGroup.children].find(each => each.getAttribute('data-of') === line.piece);
    const moved = line.points.map((at, i) => (i === corner ? { x, y } : at));
    for (const path of group.children) path.setAttribute('d', pathOf(moved));
    this.draw();
  }

  dropped(dragged, x, y) {
    this.page.invokeMethodAsync('Moved', Number(dragged.getAttribute('data-corner')), round(x), round(-y));
  }

  key(event) {
    const middle = () => ({ x: this.view.x + this.host.clientWidth * this.view.scale / 2, y: this.view.y + this.host.clientHeight * this.view.scale / 2 });
    const acts = !this.isDrawing && this.tool !== 'measure' ? {} : {
      Enter: () => this.finish(),
      Escape: () => this.clear(),
      Backspace: () => this.back(),
      ' ': () => {
        const { x, y } = middle();
        if (this.tool === 'measure') this.measure({ x, y });
        else this.add(this.snap(x, y));
      },
    };
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'z') {
      event.preventDefault();
      this.page.invokeMethodAsync('Stepped', !event.shiftKey);
      return;
    }

    const act = this.view && !event.ctrlKey && !event.metaKey && !event.altKey ? acts[event.key] : undefined;
    if (!act) {
      super.key(event);
      return;
    }

    event.preventDefault();
    act();
  }
}

const flip = ([x, y]) => ({ x, y: -y });
const round = value => Math.round(value * 10) / 10;
