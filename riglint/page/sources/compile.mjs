// Compiles every Python file below a folder for the Python that the page carries, and leaves the compiled ones.
// The same source always gives the same bytes: no times, and each file compiled by itself.
import { pathToFileURL } from "node:url";

const [runtime, folder] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(`${runtime}/pyodide.mjs`).href);
const python = await loadPyodide({ indexURL: `${runtime}/` });
python.mountNodeFS("/site", folder);
python.runPython(`
import os, py_compile
for place, folders, names in sorted(os.walk("/site")):
    if place.startswith("/site/riglint/rules"):
        continue  # the rulebook runs the very bytes that it has hashed
    for name in sorted(names):
        if name.endswith(".py"):
            file = f"{place}/{name}"
            told = file.removeprefix("/site/")
            py_compile.compile(
                file, file + "c", told, doraise=True, invalidation_mode=py_compile.PycInvalidationMode.UNCHECKED_HASH
            )
            os.remove(file)
`);
process.exit(0);
