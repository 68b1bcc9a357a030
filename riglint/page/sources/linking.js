// A rig inside a link, behind its #: that part of an address never goes over a network.
const MOST = 2_000_000;

export async function toLink(files) {
  const packed = new Blob([JSON.stringify({ files })]).stream().pipeThrough(new CompressionStream("deflate-raw"));
  const bytes = new Uint8Array(await new Response(packed).arrayBuffer());
  let text = "";
  for (const byte of bytes) text += String.fromCharCode(byte);
  return `${location.origin}${location.pathname}#rig=${btoa(text).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "")}`;
}

export async function fromLink(packed) {
  const wrong = "The link does not hold a whole rig. Ask for it again, or for the file.";
  try {
    const bytes = Uint8Array.from(atob(packed.replaceAll("-", "+").replaceAll("_", "/")), (one) => one.charCodeAt(0));
    const reader = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw")).getReader();
    const parts = [];
    for (let size = 0, step = await reader.read(); !step.done; step = await reader.read()) {
      size += step.value.length;
      if (size > MOST) return { wrong: "The link holds more than 2 MB, which is no rig." };
      parts.push(step.value);
    }
    const { files } = JSON.parse(await new Blob(parts).text());
    const named = Object.entries(files).filter(([name, text]) => typeof text === "string" && /^[^/\\.][^\\]*$/.test(name) && !name.includes(".."));
    return named.length ? { files: Object.fromEntries(named) } : { wrong };
  } catch {
    return { wrong };
  }
}
