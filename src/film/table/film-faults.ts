import { faultOf, type Fault } from '../../contract/faults.ts';

const readable = 'MP4, MOV, M4V, WebM, MKV or MPEG-TS with a video track';
const convert = 'ffmpeg -i FILM -c:v libx264 -crf 18 -pix_fmt yuv420p -c:a aac CONVERTED.mp4';
const rewrap = 'ffmpeg -i FILM -c copy REPAIRED.mp4';
const progressive =
  'ffmpeg -i FILM -vf bwdif=mode=send_field -c:v libx264 -crf 18 -pix_fmt yuv420p -c:a aac CONVERTED.mp4';

/** The file has no bytes, or its video track no frames. */
export function filmEmpty(got: string): Fault {
  return faultOf('film-empty', `Wanted a film with frames, got ${got}.`, 'Copy the film again from where it came.');
}

/** The file is no film of a kind this program can tell. */
export function filmNotVideo(): Fault {
  return faultOf(
    'film-not-video',
    `Wanted ${readable}, got a file whose bytes are none of these, whatever its name ends in.`,
    `Choose another file. If it plays elsewhere, convert it: ${convert}`,
  );
}

/** The file's bytes break off. */
export function filmTruncated(got: string): Fault {
  return faultOf(
    'film-truncated',
    `Wanted a whole film, got ${got}.`,
    `Copy it again from where it came; to keep what is there, rewrite it: ${rewrap}`,
  );
}

/** The file breaks off before the index of its frames, without which none can be found. */
export function filmWithoutIndex(got: string): Fault {
  return faultOf(
    'film-truncated',
    `Wanted a whole film, got ${got}.`,
    'Copy it again from where it came; what was recorded can not be read without its index.',
  );
}

/** The file has sound, or other tracks, but no picture. */
export function filmNoVideoTrack(got: string): Fault {
  return faultOf(
    'film-no-video-track',
    `Wanted a film with a video track, got ${got}.`,
    'Choose the file with the picture.',
  );
}

/** The container or codec is known but can't be read here. */
export function filmUnsupported(got: string): Fault {
  return faultOf(
    'film-unsupported',
    `Wanted ${readable} in a codec this program decodes, got ${got}.`,
    `Convert it: ${convert}`,
  );
}

/** The film's edit list plays its parts out of order or more than once. */
export function filmEdited(edits: number): Fault {
  return faultOf(
    'film-unsupported',
    `Wanted a film played straight through, got one whose edit list has ${edits} parts.`,
    `Write the edits out: ${convert}`,
  );
}

/** The film is interlaced: each picture holds two fields taken at different times. */
export function filmInterlaced(got: string): Fault {
  return faultOf(
    'film-interlaced',
    `Wanted whole pictures, got ${got}: two fields of different moments woven into each picture.`,
    `Convert it to one picture a field: ${progressive}`,
  );
}
