// video.js reads this once when it is imported: the window's policy lets no script add styles.
Object.assign(globalThis, { VIDEOJS_NO_DYNAMIC_STYLE: true });
