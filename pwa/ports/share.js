/** Hand a paper to the phone: share it where the phone can, open it, or save it as a file. */

const fileOf = (bytes, name) => new File([bytes], name, { type: 'application/pdf' });

export function canShare(bytes, name) {
  return Boolean(navigator.canShare?.({ files: [fileOf(bytes, name)] }));
}

/** Needs a fresh tap. Resolves to false when the person closed the sheet. */
export async function share(bytes, name, title) {
  try {
    await navigator.share({ files: [fileOf(bytes, name)], title });
    return true;
  } catch (error) {
    if (error.name === 'AbortError') return false;
    throw error;
  }
}

/** An address for an <a>: made before the tap, because a phone opens a window only on the tap itself. */
export function addressOf(bytes) {
  return URL.createObjectURL(new Blob([bytes], { type: 'application/pdf' }));
}

export function addressOfDrawing(svg) {
  return URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
}

export function release(address) {
  if (address) URL.revokeObjectURL(address);
}
