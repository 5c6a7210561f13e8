// Where a photo was taken, as the camera wrote it (EXIF): looked up in the picture, and written into the small one that is
// made of it. Two letters and six fractions are carried over as they are; nothing else of what cameras write.

const HEAD = 200000; // bytes from the start of a picture; what is looked for stands within the first 64 kB
const EXIF = 0x45786966;
const PLACE = 0x8825;

// [letter of the latitude, its twelve words, letter of the longitude, its twelve words]; null where it is not told.
export async function placeOf(file) {
  try {
    return placeIn(new DataView(await file.slice(0, HEAD).arrayBuffer()));
  } catch {
    return null; // damaged: cut short within what was looked for
  }
}

function placeIn(view) {
  const exif = exifIn(view);
  if (!exif) return null;
  const little = exif.getUint16(0) === 0x4949;
  const long = (at) => exif.getUint32(at, little);
  const entries = (at) => new Map(Array.from({ length: exif.getUint16(at, little) }, (_, place) => at + 2 + 12 * place)
    .map((entry) => [exif.getUint16(entry, little), entry + 8]));
  const first = entries(long(4));
  const told = first.has(PLACE) ? entries(long(first.get(PLACE))) : new Map();
  if (![1, 2, 3, 4].every((tag) => told.has(tag))) return null;
  const fractions = (tag) => Array.from({ length: 6 }, (_, place) => long(long(told.get(tag)) + 4 * place));
  const [north, east] = [2, 4].map(fractions);
  if (![...north, ...east].some((word, place) => word && place % 2 === 0)) return null; // so write cameras that know no place
  return [exif.getUint8(told.get(1)), north, exif.getUint8(told.get(3)), east];
}

// The part of a JPEG that holds what cameras write.
function exifIn(view) {
  if (view.getUint16(0) !== 0xffd8) return null;
  for (let at = 2; view.getUint8(at) === 0xff && view.getUint8(at + 1) !== 0xda; at += 2 + view.getUint16(at + 2)) {
    if (view.getUint8(at + 1) === 0xe1 && view.getUint32(at + 4) === EXIF) return new DataView(view.buffer, at + 10);
  }
  return null;
}

// A JPEG without such a part, with one that tells a place.
export function withPlace(jpeg, [north, latitude, east, longitude]) {
  const words = [
    0xffe1, 136, EXIF >>> 16, EXIF & 0xffff, 0, // the part and its length in bytes, from here on offsets count
    0x4d4d, 42, 0, 8, 1, PLACE, 4, 0, 1, 0, 26, 0, 0, // high bytes first; one entry, which leads to four
    4, 1, 2, 0, 2, north << 8, 0, 2, 5, 0, 3, 0, 80, 3, 2, 0, 2, east << 8, 0, 4, 5, 0, 3, 0, 104, 0, 0,
    ...[...latitude, ...longitude].flatMap((word) => [word >>> 16, word & 0xffff]),
  ];
  const part = new DataView(new ArrayBuffer(2 * words.length));
  words.forEach((word, place) => part.setUint16(2 * place, word));
  return new Blob([jpeg.slice(0, 2), part, jpeg.slice(2)], { type: jpeg.type });
}
