// Judges the rig on the screen again after every change: one audit at a time, always of the newest text.
export class Audits {
  constructor(engine, library, page) {
    Object.assign(this, { engine, library, page });
    this.running = this.due = false;
    this.found = null;
    this.of = ""; // the text that was judged
  }

  get fresh() {
    return !this.running && !this.due;
  }

  ask() {
    this.due = true;
    this.page.working();
    if (!this.running) this.run();
  }

  async run() {
    this.running = true;
    while (this.due) {
      this.due = false;
      const { rig, on, policy } = this.page;
      const begun = performance.now();
      const found = rig
        ? await this.engine.call("audit", { paths: [rig], on, policy }, this.library.files)
        : null;
      if (!this.due) {
        this.found = found;
        this.took = performance.now() - begun;
      }
    }
    this.running = false;
    this.page.judged();
  }
}
