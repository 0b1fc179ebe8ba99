/** A question a person may ask the graph with Neo4j's own tools, in words and in Cypher. */
export interface CypherExample {
  readonly question: string;
  readonly query: string;
}

/** Shown on the model page; tests run each on the demo. Days are ISO text, so they compare as text. */
export const cypherExamples: readonly CypherExample[] = [
  {
    question: "What is fitted on which vessel?",
    query: `MATCH (v:Vessel)<-[:FITTED_ON]-(i:FittedItem)
OPTIONAL MATCH (i)-[:IS_MODEL]->(m:Model)-[:MADE_BY]->(k:Maker)
RETURN v.name AS vessel, i.position AS position, k.name AS maker, m.designation AS model
ORDER BY vessel, position`,
  },
  {
    question: "Which parts do the most models share?",
    query: `MATCH (m:Model)-[:USES]->(p:Part)
WITH p, count(DISTINCT m) AS models WHERE models > 1
RETURN p.partNumber AS part, p.description AS description, models
ORDER BY models DESC, part LIMIT 20`,
  },
  {
    question: "Which gear is of a model that only one vessel has?",
    query: `MATCH (v:Vessel)<-[:FITTED_ON]-(:FittedItem)-[:IS_MODEL]->(m:Model)
WITH m, collect(DISTINCT v.name) AS vessels WHERE size(vessels) = 1
RETURN vessels[0] AS vessel, m.category AS category, m.designation AS model
ORDER BY vessel, category, model`,
  },
  {
    question: "How many makes of gear are there in each category?",
    query: `MATCH (:FittedItem)-[:IS_MODEL]->(m:Model)-[:MADE_BY]->(k:Maker)
RETURN m.category AS category, count(DISTINCT k) AS makers, count(DISTINCT m) AS models
ORDER BY makers DESC, category`,
  },
  {
    question: "Where is each lot stowed, through lockers within lockers?",
    query: `MATCH (l:StockLot)-[:LOT_OF]->(p:Part), (l)-[:STOWED_IN]->(place)
MATCH way = (place)-[:IS_WITHIN*0..10]->(v:Vessel)
RETURN v.name AS vessel, reverse([n IN nodes(way) | n.name]) AS where,
       p.partNumber AS part, l.quantity AS pieces
ORDER BY vessel, where, part`,
  },
  {
    question: "What goes out of date within a year, and what has no date at all?",
    query: `MATCH (l:StockLot)-[:LOT_OF]->(p:Part)
WHERE l.expires IS NULL OR l.expires < toString(date() + duration('P1Y'))
RETURN p.partNumber AS part, l.quantity AS pieces, coalesce(l.expires, 'no date') AS expires
ORDER BY expires`,
  },
  {
    question: "Who offers a part, at what price, how soon?",
    query: `MATCH (s:Supplier)-[o:OFFERS]->(p:Part)
WHERE o.priceMinor IS NOT NULL
RETURN p.partNumber AS part, s.name AS supplier, s.port AS port,
       o.priceMinor / 100.0 AS price, o.currency AS currency, o.leadTimeDays AS days
ORDER BY part, days LIMIT 50`,
  },
  {
    question: "Which parts that gear uses does nobody offer?",
    query: `MATCH (p:Part)<-[:USES]-(m:Model)<-[:IS_MODEL]-(:FittedItem)
WHERE NOT EXISTS { (p)<-[:OFFERS]-(:Supplier) }
RETURN DISTINCT p.partNumber AS part, p.description AS description, m.designation AS model
ORDER BY model, part`,
  },
  {
    question: "What serves each safety function, and how many of them are needed?",
    query: `MATCH (f:RequiredFunction {tier: 'safety'})-[:REQUIRED_ON]->(v:Vessel)
OPTIONAL MATCH (i:FittedItem)-[:SERVES]->(f)
RETURN v.name AS vessel, f.name AS function, coalesce(f.need, 1) AS need,
       collect(i.position) AS served
ORDER BY vessel, function`,
  },
  {
    question: "Which parts stop safety gear when they fail, and have no piece aboard anywhere?",
    query: `MATCH (:RequiredFunction {tier: 'safety'})<-[:SERVES]-(i:FittedItem)-[:IS_MODEL]->(:Model)-[u:USES]->(p:Part)
WHERE coalesce(u.failureEffect, 'stop') = 'stop'
  AND NOT EXISTS { MATCH (p)<-[:LOT_OF]-(l:StockLot) WHERE l.quantity > 0 }
RETURN p.partNumber AS part, p.description AS description, collect(DISTINCT i.position) AS stops
ORDER BY size(stops) DESC, part`,
  },
  {
    question: "When was each service last done, and what does it use up?",
    query: `MATCH (t:ServiceTask)-[:SERVICE_OF]->(m:Model)<-[:IS_MODEL]-(i:FittedItem)
OPTIONAL MATCH (i)-[done:SERVICED]->(t)
OPTIONAL MATCH (t)-[:CONSUMES]->(p:Part)
RETURN i.position AS item, t.name AS service, coalesce(done.lastDone, 'unknown') AS lastDone,
       collect(p.partNumber) AS takes
ORDER BY lastDone, item`,
  },
  {
    question: "Which file did what, newest first?",
    query: `MATCH (w:Write)
OPTIONAL MATCH (i:Import {id: w.import})
RETURN w.at AS at, w.who AS who, i.fileName AS file, w.last - w.first + 1 AS changes
ORDER BY w.first DESC LIMIT 20`,
  },
];
