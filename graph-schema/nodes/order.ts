import { z } from "zod";
import { node } from "../declaration.ts";
import { date, document, requiredChoice, requiredText } from "../property.ts";

export const order = node({
  label: "Order",
  meaning: "What is bought of one supplier at one time",
  identifiedBy: ["reference"],
  nameFrom: "reference",
  properties: {
    reference: requiredText({
      meaning: "Our own order number",
      headers: {
        en: [
          "order",
          "order no",
          "order reference",
          "order number",
          "our order",
          "purchase order",
          "po",
          "po number",
        ],
        de: [
          "bestellung",
          "bestell-nr",
          "bestellnummer",
          "auftrag",
          "auftragsnummer",
          "unsere bestellung",
        ],
        fr: ["commande", "n° de commande", "numéro de commande", "bon de commande"],
        es: ["pedido", "nº de pedido", "número de pedido", "orden de compra"],
        nl: ["bestelling", "bestelnummer", "order", "ordernummer"],
        it: ["ordine", "numero ordine", "n. ordine"],
        pt: ["encomenda", "número da encomenda", "nº da encomenda", "pedido"],
      },
    }),
    status: requiredChoice(["planned", "placed", "arrived", "cancelled"], {
      meaning: "How far it has come",
      headers: {
        en: ["order status", "status", "state", "progress"],
        de: ["bestellstatus", "status", "stand"],
        fr: ["état de la commande", "statut", "état"],
        es: ["estado del pedido", "estado"],
        nl: ["bestelstatus", "status"],
        it: ["stato dell'ordine", "stato"],
        pt: ["estado da encomenda", "estado", "situação"],
      },
    }),
    placed: date({
      meaning: "Day it was placed",
      headers: {
        en: ["placed", "ordered", "ordered on", "order date", "date ordered", "placed on"],
        de: ["bestellt am", "bestelldatum", "bestellt"],
        fr: ["commandé le", "date de commande", "commandé"],
        es: ["pedido el", "fecha de pedido", "fecha pedido"],
        nl: ["besteld op", "besteldatum", "besteld"],
        it: ["ordinato il", "data ordine"],
        pt: ["encomendado em", "data da encomenda", "data do pedido"],
      },
    }),
    expected: date({
      meaning: "Day on which the supplier says it will come; the last, where lines differ",
      headers: {
        en: [
          "expected",
          "expected on",
          "due",
          "due date",
          "delivery date",
          "eta",
          "promised",
          "arrives",
          "promised for",
        ],
        de: ["erwartet", "erwartet am", "liefertermin", "lieferdatum", "zugesagt"],
        fr: ["attendu le", "livraison prévue", "date de livraison", "prévu le"],
        es: ["previsto", "fecha de entrega", "entrega prevista", "llega"],
        nl: ["verwacht", "verwacht op", "leverdatum"],
        it: ["previsto", "data di consegna", "consegna prevista"],
        pt: ["previsto", "data de entrega", "entrega prevista"],
      },
    }),
    neededBy: date({
      meaning: "Day by which it must be aboard",
      headers: {
        en: ["needed by", "required by", "must be here by", "wanted by"],
        de: ["gebraucht bis", "benötigt bis", "spätestens"],
        fr: ["nécessaire avant", "requis pour le", "au plus tard"],
        es: ["necesario antes de", "se necesita para", "a más tardar"],
        nl: ["nodig voor", "uiterlijk"],
        it: ["necessario entro", "entro il"],
        pt: ["necessário até", "o mais tardar"],
      },
    }),
    lines: document(
      z.array(
        z.object({
          part: z.string(),
          quantity: z.number().int().positive(),
          priceMinor: z.number().int().nonnegative().optional(),
          currency: z.string().optional(),
          /** Day on which this line should come, ISO 8601. */
          expected: z.string().optional(),
        }),
      ),
      { meaning: "Ids of the parts, each with pieces and the price of one" },
    ),
  },
});
