/** A minimum list of one's own to begin with, in the columns of the published ones. Its rules are examples, no advice. */
export const ownListExample = `Our own minimum list,,,,,,,,,,,,,
For passages out of reach of help,,,,,,,,,,,,,
Place,Gear,Not when,Spare,Must fit,Basis,Quantity,Per,At least,Of each,Covers units,What it asks,Source,Dated
Rule 1,bilge pump,,impeller|diaphragm,yes,unit,2,,,,,Two impellers or diaphragms for each bilge pump,Our standing orders,2026-01-01
Rule 2,navigation light,LED,bulb,yes,kind,1,,,,,One bulb for each kind of navigation light,Our standing orders,2026-01-01
Rule 3,,,shackle,no,ship,4,,,,,Four shackles for the ship,Our standing orders,2026-01-01
`;
