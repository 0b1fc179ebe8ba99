/** A small invented fleet as one flat list: two winches of one model, a bilge pump, stock in and out of date. */
export const smallFleetCsv = `Spares list of the invented ketch Tamarisk
Vessel;Position;Maker;Model;Category;Function;Tier;Need k;Hours per day;Part maker;Part number;Description;Quantity per unit;Failure rate;Rate basis;Supplier;Price;Currency;Locker;Stock;Expires;Shelf life months;Colour
Tamarisk;Port primary;Oakhollow;W40;winch;Sheet the headsails;passage;1;2;Oakhollow;0040-07;Pawl spring;4;0.9;1000 hours;Quayline;1,85;EUR;Saloon > Port settee > Box 3;6;;;blue
Tamarisk;Starboard primary;Oakhollow;W40;winch;Sheet the headsails;passage;1;2;Oakhollow;0040-07;Pawl spring;4;0.9;1000 hours;Quayline;1,85;EUR;;;;;
Tamarisk;Bilge pump;Fenwater;BP-12;bilge pump;Pump the bilge;safety;1;1;Fenwater;=BP12-A;Impeller;1;2;1000 hours;Quayline;24;EUR;Engine room;2;2020-05-01;60;
Tamarisk;Bilge pump;Fenwater;BP-12;bilge pump;Pump the bilge;safety;1;1;Fenwater;BP12-S;Shaft seal;1;1;1000 hours;Quayline;9,5;EUR;Engine room;1;2031-01-01;;
`;

export const smallFleetCrossingCsv = `Crossing,Departs,Days expected,Days longest,Vessel
Westward,2026-12-05,16,20,Tamarisk
`;
