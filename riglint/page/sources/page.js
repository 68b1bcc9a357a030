import { Engine } from "./engine.js";
const engine = new Engine();
window.riglint = { engine };
