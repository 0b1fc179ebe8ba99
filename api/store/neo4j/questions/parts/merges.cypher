// Whether pair i of parts x and y merges: confirmed, or else stated, not unproven, and tied to no safety gear at either end.
// As api/scoring/classes: ties are confirmed pairs and supersessions whose older part fitted gear has to do with.
i.confidence = 'confirmed' OR (
  coalesce(i.confidence, '') <> 'unproven' AND NOT EXISTS {
    UNWIND [x, y] AS end
    MATCH (end) ((u)-[t:INTERCHANGES_WITH|SUPERSEDED_BY]-(w) WHERE t.confidence = 'confirmed' OR (
      type(t) = 'SUPERSEDED_BY' AND EXISTS {
        WITH startNode(t) AS older
        MATCH (older) ((n)-[l:INTERCHANGES_WITH|SUPERSEDED_BY]-(o) WHERE
          type(l) = 'INTERCHANGES_WITH' OR startNode(l) = o
        ){0,} (taken:Part)
        MATCH (taken)<-[:USES|CONSUMES]-()-[:SERVICE_OF]->{0,1}(:Model)<-[:IS_MODEL]-(:FittedItem)-[:FITTED_ON]->(v:Vessel)
        WHERE $vessel = '' OR v.id = $vessel
      }
    )){0,} (safe:Part)
    WHERE coalesce(safe.isSafety, false) OR EXISTS {
      MATCH (safe)<-[line:USES|CONSUMES]-()-[:SERVICE_OF]->{0,1}(:Model)<-[:IS_MODEL]-(f:FittedItem)-[:FITTED_ON]->(v:Vessel),
            (f)-[:SERVES]->(:RequiredFunction {tier: 'safety'})-[:REQUIRED_ON]->(v)
      WHERE coalesce(line.failureEffect, 'stop') = 'stop' AND ($vessel = '' OR v.id = $vessel)
    }
  }
)
