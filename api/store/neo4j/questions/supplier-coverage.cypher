// How many of the parts that can be replaced at sea does each supplier offer?
// Parameter vessel: '' for the whole fleet, or one vessel's id. By hand: :param vessel => ''
// Parts that interchange count as one (class: the least id among them), where their pair merges: {merges} stands for
// the text of parts/merges.cypher.
MATCH (m:Model) WHERE m.id STARTS WITH 'Model:'
WITH m, COUNT {
  (m)<-[:IS_MODEL]-(i:FittedItem)
  WHERE $vessel = '' OR EXISTS { (i)-[:FITTED_ON]->(:Vessel {id: $vessel}) }
} AS items
WHERE items > 0
MATCH (m)-[u:USES]->(p:Part) WHERE coalesce(u.fittableAtSea, true)
WITH DISTINCT p
CALL (p) {
  MATCH (p) ((x)-[i:INTERCHANGES_WITH]-(y) WHERE {merges}){0,} (q:Part)
  RETURN min(q.id) AS class
}
WITH DISTINCT class
MATCH (c:Part {id: class})
CALL (c) {
  MATCH (c) ((x)-[i:INTERCHANGES_WITH]-(y) WHERE {merges}){0,} (q:Part)<-[:OFFERS]-(s:Supplier)
  RETURN DISTINCT s
}
RETURN s.id AS supplier, s.name AS name, count(*) AS parts
ORDER BY parts DESC, name
