// Where is this part, or one that interchanges with it, fitted?
// {merges} stands for the text of parts/merges.cypher, with parameter vessel '' (the whole fleet's safety gear).
// Parameter part: its id. By hand: MATCH (p:Part {partNumber: '...'}) RETURN p.id
MATCH (p:Part {id: $part})
MATCH (p) ((x)-[i:INTERCHANGES_WITH]-(y) WHERE {merges}){0,} (q:Part)
WITH DISTINCT q
MATCH (q)<-[u:USES]-(m:Model)<-[:IS_MODEL]-(i:FittedItem)
OPTIONAL MATCH (i)-[:FITTED_ON]->(v:Vessel)
RETURN i.id AS item, v.name AS vessel, i.position AS position, m.designation AS model,
       q.partNumber AS part, u.quantity AS pieces
ORDER BY vessel, position
