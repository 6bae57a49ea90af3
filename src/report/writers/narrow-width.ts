/** Width of a chart that fits a phone's screen beside the report's margins. */
export const narrowWidth = 340;
