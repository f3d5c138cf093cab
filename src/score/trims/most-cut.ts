/** How much of a panel cuts may take, per cent, where the maker does not say. (Common practice, no source.) */
export const MOST_CUT = 10;
