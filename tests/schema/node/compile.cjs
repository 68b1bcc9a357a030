// Compiles each schema file named, in ajv's strict mode, and checks documents against it.
// Reads {"keywords": [...], "schemas": {name: schema}, "documents": [{"schema": name, "data": ...}]} from standard
// input; writes {"refused": {name: why}, "milliseconds": {name: number}, "errors": [[{path, keyword}], ...]}.
const Ajv = require("ajv");

const asked = JSON.parse(require("fs").readFileSync(0, "utf8"));
const answer = { refused: {}, milliseconds: {}, errors: [] };
const compiled = {};
for (const [name, schema] of Object.entries(asked.schemas)) {
  // Text takes what YAML reads as a number or a yes/no, hence types in a list; all else is strict.
  const ajv = new Ajv({ strict: true, allowUnionTypes: true, allErrors: true });
  ajv.addVocabulary(asked.keywords);
  const start = process.hrtime.bigint();
  try {
    compiled[name] = ajv.compile(schema);
  } catch (error) {
    answer.refused[name] = error.message;
  }
  answer.milliseconds[name] = Number(process.hrtime.bigint() - start) / 1e6;
}
for (const { schema, data } of asked.documents) {
  const good = compiled[schema](data);
  answer.errors.push(good ? [] : compiled[schema].errors.map((e) => ({ path: e.instancePath, keyword: e.keyword })));
}
process.stdout.write(JSON.stringify(answer));
