// The engine: Python in a worker, so that the page never waits for it. Every message is a call and gets one answer.
import { loadPyodide } from "./pyodide.mjs";

const here = new URL(".", self.location.href).href;
let python;
let engine;
let at = 0;

function progress(done, words) {
  postMessage({ progress: done, words });
}

// The WebAssembly goes over the wire as gzip, whatever the web space does; it is compiled while it arrives.
const bring = self.fetch.bind(self);
async function fetched(request, options) {
  const name = String(request?.url ?? request);
  if (!name.endsWith(".wasm")) return bring(request, options);
  const packed = await bring(`${name}.gz`, { credentials: "same-origin" });
  if (!packed.ok) return packed;
  const open = packed.body.pipeThrough(new DecompressionStream("gzip"));
  return new Response(open, { headers: { "Content-Type": "application/wasm" } });
}

async function begin() {
  progress(0.05, "Loading Python");
  self.fetch = fetched;
  const packages = bring(`${here}packages.zip`, { credentials: "same-origin" }).then((got) => {
    if (!got.ok) throw new Error(`packages.zip: ${got.status}`);
    return got.arrayBuffer();
  });
  python = await loadPyodide({ indexURL: here, lockFileContents: NO_PACKAGES, packageBaseUrl: here });
  progress(0.5, "Unpacking riglint");
  const site = python.runPython("import site; site.getsitepackages()[0]");
  python.unpackArchive(await packages, "zip", { extractDir: site });
  python.FS.mkdirTree("/library");
  python.FS.writeFile("/library/rig-library", "");
  closeTheDoor();
  progress(0.65, "Loading the rules");
  python.runPython("import os; os.chdir('/library'); import importlib; importlib.invalidate_caches()");
  python.runPython("from riglint.page.engine import Engine");
  progress(0.85, "Loading the rules");
  engine = python.runPython("Engine()");
  progress(1, "Ready");
}

const NO_PACKAGES = JSON.stringify({
  info: { abi_version: "2026_0", arch: "wasm32", platform: "emscripten_5_0_3", version: "314.0.7", python: "3.14.2" },
  packages: {},
});

// Nothing leaves from here on: what could send is gone before a rig is read.
function closeTheDoor() {
  for (const name of ["fetch", "XMLHttpRequest", "WebSocket", "EventSource", "importScripts", "WebTransport"]) {
    try {
      Object.defineProperty(self, name, { value: undefined, writable: false, configurable: false });
    } catch {
      self[name] = undefined;
    }
  }
}

// The library as the page holds it: written whole, what is gone is taken away.
const held = new Map();
function lay(files) {
  for (const name of held.keys()) {
    if (!(name in files)) {
      python.FS.unlink(`/library/${name}`);
      held.delete(name);
    }
  }
  for (const [name, text] of Object.entries(files)) {
    if (name.startsWith("/") || name.split("/").includes("..")) continue;
    if (held.get(name) === text) continue;
    const folder = name.slice(0, Math.max(0, name.lastIndexOf("/")));
    if (folder) python.FS.mkdirTree(`/library/${folder}`);
    python.FS.writeFile(`/library/${name}`, typeof text === "string" ? new TextEncoder().encode(text) : text);
    held.set(name, text);
  }
}

const begun = begin().catch((error) => {
  postMessage({ failed: String(error?.message ?? error) });
  throw error;
});

self.onmessage = async ({ data }) => {
  const mine = ++at;
  try {
    await begun;
    if (data.files) lay(data.files);
    if (data.archive) python.FS.writeFile("/opened.zip", data.archive);
    const said = JSON.parse(engine.call(data.name, JSON.stringify(data.arguments ?? {})));
    postMessage({ id: data.id, said, mine });
  } catch (error) {
    postMessage({ id: data.id, said: { wrong: `The engine stopped (${String(error?.message ?? error)}).` } });
  }
};
