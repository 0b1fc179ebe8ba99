/** A small flat list, all in order. */
export const flatList = [
  "Vessel,Position,Manufacturer,Model,Category,Part number,Description,Weight (g),Qty,Supplier,Price,Locker,On board,Expires,Colour",
  "Tern,Primary winch port,Works North,W-40,winch,00123,pawl spring,4,8,Quay Stores,1.50 EUR,Bin 3,6,,red",
  "Tern,Primary winch port,Works North,W-40,winch,00124-b,bearing,30,4,Quay Stores,12.00 EUR,Bin 3,2,,",
  "Tern,Primary winch stbd,Works North,W-40,winch,00123,pawl spring,4,8,Quay Stores,1.50 EUR,Bin 3,6,,blue",
  "Tern,Bilge pump fwd,Works South,P 7,bilge pump,77/A,impeller,120,1,Mole Supply,23.40 EUR,Bin 4,1,Mar 2027,",
].join("\n");
