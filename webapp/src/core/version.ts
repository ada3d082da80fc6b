/** Version of the judging, named by every record a phone makes. */
export const VERSION = 3;
