// How alike is the fitted gear? The indices of api/scoring/commonality/indices.ts, where their sources stand.
// Parameter vessel: '' for the whole fleet, or one vessel's id. By hand: :param vessel => ''
// Parts that interchange count as one (class: the least id among them), where their pair merges: {merges} stands for
// the text of parts/merges.cypher.
MATCH (m:Model) WHERE m.id STARTS WITH 'Model:'
WITH m, COUNT {
  (m)<-[:IS_MODEL]-(i:FittedItem)
  WHERE $vessel = '' OR EXISTS { (i)-[:FITTED_ON]->(:Vessel {id: $vessel}) }
} AS items
WHERE items > 0
MATCH (m)-[:USES]->(p:Part)
WITH p, collect(DISTINCT [m.id, items]) AS models
CALL (p) {
  MATCH (p) ((x)-[i:INTERCHANGES_WITH]-(y) WHERE {merges}){0,} (q:Part)
  RETURN min(q.id) AS class
}
UNWIND models AS model
WITH DISTINCT class, model
WITH model, collect(class) AS list
WITH collect(list) AS lists, count(*) AS models, sum(model[1]) AS items,
     toFloat(sum(size(list))) AS lines, max(size(list)) AS largest
UNWIND lists AS list
UNWIND list AS class
WITH models, items, lines, largest, count(DISTINCT class) AS distinct
RETURN models, items, toInteger(lines) AS lines, distinct AS distinctParts,
       lines / distinct AS degreeOfCommonality,
       CASE WHEN lines > 1 THEN 1 - (distinct - 1) / (lines - 1) END AS totalConstantCommonality,
       CASE WHEN lines > largest THEN 1 - (distinct - largest) / (lines - largest) END AS componentCommonality
