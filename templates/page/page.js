// The page of `furbelow watch`. It asks for the state whenever the server has news, and puts in only what is new, so that the
// reader stays where she is.

const el = (id) => document.getElementById(id);
const make = (tag, words, more = {}) => Object.assign(document.createElement(tag), { textContent: words ?? "" }, more);
const keep = {
  get: (name, usual) => sessionStorage.getItem(name) ?? usual,
  set: (name, value) => sessionStorage.setItem(name, value),
};
const ask = async (path, options) => {
  const answer = await fetch(path, options);
  return answer.ok ? answer.json() : null;
};

let view = keep.get("view", "pages");
let state = null;
let turn = 0;

const say = (words) => { el("status").textContent = words; };

// Faults stand above the last good pages; advice is folded away until it is wanted.
const faults = (list) => {
  const stops = list.filter((fault) => fault.severity === "fault");
  const advice = list.filter((fault) => fault.severity !== "fault");
  el("faults").hidden = list.length === 0;
  el("faults").className = stops.length > 0 ? "stops" : "";
  el("faults-head").hidden = stops.length === 0;
  el("faults-head").textContent = state.garment ? "Faults; what stands below is from before them" : "Faults";
  el("advice").hidden = advice.length === 0;
  el("advice-head").textContent = advice.length === 1 ? "1 word of advice" : `${advice.length} words of advice`;
  const item = (fault) => {
    const line = make("li");
    if (fault.file) line.append(make("span", `${fault.file}:${fault.line}:${fault.column} `, { className: "place" }));
    line.append(fault.message);
    if (fault.help) line.append(make("span", fault.help, { className: "help" }));
    return line;
  };
  el("fault-list").replaceChildren(...stops.map(item));
  el("advice-list").replaceChildren(...advice.map(item));
};

const options = (select, list, chosen) => {
  const same = select.options.length === list.length
    && list.every(([value, words], at) => select.options[at].value === value && select.options[at].text === words);
  if (!same) select.replaceChildren(...list.map(([value, words]) => make("option", words, { value })));
  select.value = list.some(([value]) => value === chosen) ? chosen : (list[0] ?? [""])[0];
};

const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1).replaceAll("-", " ");

const renew = async () => {
  const now = ++turn;
  const fresh = await ask("/state").catch(() => null);
  if (!fresh || now !== turn) return;
  state = fresh;
  faults(state.faults);
  const garment = state.garment;
  if (!garment) { say(state.news === 0 ? "Reading the garment" : "Not right yet"); document.body.dataset.news = state.news; return; }
  document.title = `${garment.title}, edition ${garment.edition}`;
  el("title").textContent = `${garment.title}, edition ${garment.edition}`;
  if (garment.accent) document.documentElement.style.setProperty("--accent", garment.accent);
  options(el("edition"), garment.editions.map((one) => [one.slug, one.words]), keep.get("edition", "all"));
  const kinds = el("edition").value === "all" ? state.documents : state.documents.slice(0, 1);
  options(el("document"), kinds.map((kind) => [kind, capital(kind)]), keep.get("document", state.documents[0]));
  options(el("paper"), state.papers.map((paper) => [paper, capital(paper)]), keep.get("paper", state.papers[0]));
  await show(now);
  if (now === turn) {
    document.body.dataset.news = state.news;
    say(state.stale ? "Waiting for the faults to be mended" : "Up to date");
  }
};

const show = async (now) => {
  for (const name of ["pages", "figures", "numbers"]) {
    el(name).hidden = name !== view;
    el(`tab-${name}`).setAttribute("aria-selected", String(name === view));
    el(`tab-${name}`).tabIndex = name === view ? 0 : -1;
  }
  el("view").setAttribute("aria-labelledby", `tab-${view}`);
  el("document").disabled = view !== "pages";
  el("paper").disabled = view !== "pages";
  el("edition").disabled = view === "numbers";
  if (view === "pages") await pages(now);
  if (view === "figures") await figures(now);
  if (view === "numbers") await numbers(now);
};

// Only pages that look otherwise get another picture.
const pages = async (now) => {
  const [edition, kind, paper] = [el("edition").value, el("document").value, el("paper").value];
  const found = await ask(`/document/${encodeURIComponent(edition)}/${kind}/${paper}`).catch(() => null);
  if (!found || now !== turn) return;
  if (found.faults) { faults([...state.faults, ...found.faults]); return; }
  const home = el("pages");
  const which = `${edition} ${kind} ${paper}`;
  const fresh = home.dataset.which !== which;
  home.dataset.which = which;
  while (home.children.length > found.pages.length) home.lastElementChild.remove();
  found.pages.forEach((address, at) => {
    let figure = home.children[at];
    if (!figure) {
      figure = make("figure");
      const img = make("img", "", { loading: "lazy", width: Math.round(found.width * 4), height: Math.round(found.height * 4) });
      figure.append(img, make("figcaption"));
      home.append(figure);
    }
    const img = figure.firstElementChild;
    const words = `Page ${at + 1} of ${found.pages.length}`;
    img.width = Math.round(found.width * 4);
    img.height = Math.round(found.height * 4);
    if (img.alt !== words) { img.alt = words; figure.lastElementChild.textContent = words; }
    figure.classList.remove("new");
    if (img.getAttribute("src") !== address) {
      if (!fresh && img.hasAttribute("src")) figure.classList.add("new");
      img.src = address;
    }
  });
};

const corner = { left: 0, middle: -50, right: -100 };
const across = { "top-left": "left", top: "middle", "top-right": "right", left: "left", middle: "middle", right: "right", "bottom-left": "left", bottom: "middle", "bottom-right": "right", "base-start": "left", "base-middle": "middle", "base-end": "right" };
const down = { "top-left": 0, top: 0, "top-right": 0, left: -50, middle: -50, right: -50, "bottom-left": -100, bottom: -100, "bottom-right": -100, "base-start": -78, "base-middle": -78, "base-end": -78 };

const figures = async (now) => {
  const edition = el("edition").value;
  const list = await ask(`/figures/${encodeURIComponent(edition)}`).catch(() => null);
  if (!Array.isArray(list) || now !== turn) return;
  el("figures").replaceChildren(...list.map((figure) => {
    const drawing = make("div", "", { className: "drawing" });
    drawing.style.aspectRatio = `${figure.width} / ${figure.height}`;
    drawing.append(make("img", "", { loading: "lazy", alt: figure.alt, src: `/figure/${encodeURIComponent(edition)}/${figure.id}.svg?${figure.digest}` }));
    const place = (words, x, y, pt, turned) => {
      const span = make("span", words, { ariaHidden: "true" });
      span.style.left = `${(100 * x) / figure.width}%`;
      span.style.top = `${(100 * y) / figure.height}%`;
      span.style.fontSize = `${(100 * pt * 0.3528) / figure.width}cqw`;
      span.style.transform = turned;
      drawing.append(span);
      return span;
    };
    for (const label of figure.labels) {
      if (label.style === "callout") continue;
      const [dx, dy] = [corner[across[label.anchor]] ?? -50, down[label.anchor] ?? -50];
      const span = place(label.text, label.x, label.y, Math.max(7, label.size_pt), `rotate(${label.turn_deg}deg) translate(${dx}%, ${dy}%)`);
      span.style.transformOrigin = "0 0";
      span.className = label.style;
    }
    for (const callout of figure.callouts) place(callout.letter, callout.x, callout.y, 8, "translate(-50%, -50%)").className = "ring";
    const box = make("figure");
    if (figure.title) box.append(make("h2", figure.title));
    box.append(drawing, make("figcaption", figure.caption));
    for (const callout of figure.callouts.filter((one) => one.words)) box.append(make("div", `${callout.letter}: ${callout.words}`));
    return box;
  }));
};

let known = { sizes: [], rows: [], inputs: [] };

const numbers = async (now) => {
  const found = await ask("/numbers").catch(() => null);
  if (!found || now !== turn) return;
  known = found;
  const chosen = el("try-name").value;
  options(el("try-name"), known.inputs.map((input) => [JSON.stringify(input.route), `${input.name} (${input.text})`]), chosen);
  if (!el("try-value").value) written();
  table();
};

const table = () => {
  const wanted = el("filter").value.trim().toLowerCase();
  const rows = known.rows.filter((row) => `${row.name} ${row.label}`.toLowerCase().includes(wanted));
  el("count").textContent = `${rows.length} of ${known.rows.length} numbers`;
  const head = make("tr");
  head.append(make("th", "Number", { scope: "col" }), ...known.sizes.map((size) => make("th", size, { scope: "col" })));
  el("table").tHead.replaceChildren(head);
  el("table").tBodies[0].replaceChildren(...rows.map((row) => {
    const line = make("tr");
    const name = make("th", "", { scope: "row" });
    const button = make("button", row.name, { type: "button", title: "How it came about" });
    button.addEventListener("click", () => why(row.name));
    name.append(button, make("small", row.label));
    line.append(name, ...row.values.map((value) => make("td", value)));
    return line;
  }));
};

const why = async (name) => {
  const size = (state.garment.editions.find((one) => one.slug === el("edition").value)?.words ?? "").replace(/^Size /, "");
  const shown = known.sizes.includes(size) ? size : known.sizes[Math.floor(known.sizes.length / 2)];
  const found = await ask(`/why/${encodeURIComponent(name)}?size=${encodeURIComponent(shown)}`);
  if (!found) return;
  el("why-head").textContent = `${name}, size ${shown}`;
  el("why-list").replaceChildren(...found.reasons.map((reason) => {
    const item = make("li");
    item.style.marginLeft = `${Math.min(reason.depth, 6)}rem`;
    item.append(make("strong", `${reason.name} = ${reason.value}`), make("br"), reason.filled ? `${reason.rule} = ${reason.filled}` : reason.rule);
    return item;
  }));
  el("why").showModal();
};

const written = () => {
  const input = known.inputs.find((one) => JSON.stringify(one.route) === el("try-name").value);
  el("try-value").value = input?.text ?? "";
};

const copied = (line) => {
  const button = make("button", "Copy the line", { type: "button" });
  button.addEventListener("click", async () => {
    try {
      await navigator.clipboard.writeText(line);
      button.textContent = "Copied";
    } catch {
      getSelection().selectAllChildren(button.previousElementSibling);
      button.textContent = "Marked: copy it with the keyboard";
    }
  });
  return button;
};

el("try").addEventListener("submit", async (event) => {
  event.preventDefault();
  const home = el("tried");
  home.replaceChildren(make("p", "Working it out"));
  const body = JSON.stringify({ route: JSON.parse(el("try-name").value || "[]"), value: el("try-value").value });
  const found = await ask("/try", { method: "POST", headers: { "Content-Type": "application/json" }, body }).catch(() => null);
  if (!found || found.refused) { home.replaceChildren(make("p", found?.refused ?? "The tool did not answer")); return; }
  const parts = [];
  for (const fault of found.faults) {
    const place = fault.file ? `${fault.file}:${fault.line} ` : "";
    parts.push(make("p", `${fault.severity}: ${place}${fault.message}${fault.help ? ` (${fault.help})` : ""}`));
  }
  if (found.numbers.length > 0) {
    const box = make("table");
    box.append(make("caption", `${found.numbers.length} numbers would change`));
    const head = make("tr");
    head.append(make("th", "Number", { scope: "col" }), ...known.sizes.map((size) => make("th", size, { scope: "col" })));
    box.createTHead().append(head);
    const rows = box.createTBody();
    for (const number of found.numbers) {
      const line = make("tr");
      const name = make("th", number.name, { scope: "row" });
      name.append(make("small", number.label));
      line.append(name);
      for (const size of known.sizes) {
        const cell = make("td");
        const change = number.sizes.find((one) => one.size === size);
        if (change) cell.append(make("span", change.old ?? "", { className: "was" }), make("span", change.new ?? "gone", { className: "is" }));
        line.append(cell);
      }
      rows.append(line);
    }
    const wide = make("div", "", { className: "wide", tabIndex: 0, role: "region", ariaLabel: "What would change" });
    wide.append(box);
    parts.push(wide);
  } else if (!found.faults.some((fault) => fault.severity === "fault")) {
    parts.push(make("p", "No number would change in print."));
  }
  const line = make("p", "", { className: "line" });
  line.append(`To keep it, write in ${found.file}, line ${found.at}: `, make("code", found.line), copied(found.line));
  parts.push(line);
  home.replaceChildren(...parts);
});

el("try-name").addEventListener("change", written);
el("filter").addEventListener("input", table);
for (const name of ["edition", "document", "paper"]) {
  el(name).addEventListener("change", (event) => { keep.set(name, event.target.value); renew(); });
}
const tabs = ["pages", "figures", "numbers"];
for (const name of tabs) {
  const tab = el(`tab-${name}`);
  tab.addEventListener("click", () => { view = name; keep.set("view", name); renew(); });
  tab.addEventListener("keydown", (event) => {
    const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (!step) return;
    event.preventDefault();
    const next = el(`tab-${tabs[(tabs.indexOf(name) + step + tabs.length) % tabs.length]}`);
    next.focus();
    next.click();
  });
}

const listen = () => {
  const news = new EventSource("/events");
  news.onmessage = renew;
  news.onerror = () => { if (news.readyState !== EventSource.OPEN) say("The tool is not running; what you see is from before"); };
};
listen();
