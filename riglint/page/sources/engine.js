// The page's side of the worker: one call at a time, answers by number, progress for whoever shows it.
export class Engine {
  constructor(onProgress = () => {}) {
    this.onProgress = onProgress;
    this.waiting = new Map();
    this.number = 0;
    this.failed = "";
    this.worker = new Worker(new URL("worker.js", document.baseURI), { type: "module" });
    this.worker.onmessage = ({ data }) => this.take(data);
    this.worker.onerror = (event) => this.fail(event.message || "the worker could not start");
  }

  take(data) {
    if (data.failed !== undefined) return this.fail(data.failed);
    if (data.progress !== undefined) return this.onProgress(data.progress, data.words);
    this.waiting.get(data.id)?.(data.said);
    this.waiting.delete(data.id);
  }

  fail(why) {
    this.failed = why;
    this.onProgress(0, `riglint could not be loaded (${why}). Open the page again with a network.`);
    for (const answer of this.waiting.values()) answer({ wrong: `riglint could not be loaded (${why}).` });
    this.waiting.clear();
  }

  // Runs one call of the engine over these files; gives its answer, or { wrong: a sentence }.
  call(name, args = {}, files = null, archive = null) {
    if (this.failed) return Promise.resolve({ wrong: `riglint could not be loaded (${this.failed}).` });
    const id = ++this.number;
    return new Promise((answer) => {
      this.waiting.set(id, answer);
      this.worker.postMessage({ id, name, arguments: args, files, archive });
    });
  }

  close() {
    this.worker.terminate();
  }
}
