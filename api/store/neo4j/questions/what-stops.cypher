// Which gear stops when this part fails and no piece of it, or of one that interchanges with it, can be had?
// {merges} stands for the text of parts/merges.cypher, with parameter vessel '' (the whole fleet's safety gear).
// Parameter part: its id. Unstated: a failure stops the item; the part can be fitted at sea.
MATCH (p:Part {id: $part})
MATCH (p) ((x)-[i:INTERCHANGES_WITH]-(y) WHERE {merges}){0,} (q:Part)
WITH DISTINCT q
MATCH (q)<-[u:USES]-(m:Model)<-[:IS_MODEL]-(i:FittedItem)
WHERE coalesce(u.fittableAtSea, true) AND coalesce(u.failureEffect, 'stop') = 'stop'
WITH DISTINCT i, m
OPTIONAL MATCH (i)-[:FITTED_ON]->(v:Vessel)
OPTIONAL MATCH (i)-[:SERVES]->(f:RequiredFunction)
RETURN i.id AS item, v.name AS vessel, i.position AS position, m.designation AS model,
       collect(f.name) AS functions, collect(coalesce(f.tier, 'passage')) AS tiers
ORDER BY vessel, position
