// Which different spares kits does the fitted gear need? A kit: what of a model can be replaced at sea.
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
WITH p, collect(DISTINCT [m.id, items]) AS models
CALL (p) {
  MATCH (p) ((x)-[i:INTERCHANGES_WITH]-(y) WHERE {merges}){0,} (q:Part)
  RETURN min(q.id) AS class
}
UNWIND models AS model
WITH DISTINCT model, class ORDER BY class
WITH model, collect(class) AS kit
WITH kit, collect(model[0]) AS models, sum(model[1]) AS items
RETURN size(kit) AS parts, models, items
ORDER BY items DESC, parts DESC
