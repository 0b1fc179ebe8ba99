// How many different parts does the fitted gear take, and how many of them does only one model take?
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
WITH p, collect(DISTINCT m.id) AS models
CALL (p) {
  MATCH (p) ((x)-[i:INTERCHANGES_WITH]-(y) WHERE {merges}){0,} (q:Part)
  RETURN min(q.id) AS class
}
UNWIND models AS model
WITH class, count(DISTINCT model) AS users
RETURN count(*) AS distinctParts, sum(users) AS lines,
       sum(CASE WHEN users = 1 THEN 1 ELSE 0 END) AS usedByOneModelOnly
