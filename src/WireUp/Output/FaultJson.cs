using System.Collections.Immutable;
using System.Text.Json.Nodes;
using UnitsNet;
using WireUp.Faults;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using static WireUp.Output.ResultJson;

namespace WireUp.Output;

/// <summary>What <c>diagnose --json</c> prints.</summary>
internal static class FaultJson
{
    /// <summary>The whole answer.</summary>
    public static JsonObject Of(ReadingSet set, Diagnosis? diagnosis, ImmutableArray<SymptomRow> advice)
    {
        JsonObject node = diagnosis is null ? new() { ["faults"] = new JsonArray(), ["next"] = new JsonArray(), ["unexplained"] = new JsonArray() } : Of(set, diagnosis);
        node["advice"] = Array(advice, row => new JsonObject
        {
            ["symptom"] = row.Symptom,
            ["likely"] = row.Likely,
            ["test"] = row.Test,
            ["figures"] = row.Typical,
            ["standing"] = row.Standing.Word(),
        });
        return node;
    }

    /// <summary>The end, place or other words by which results know a part.</summary>
    public static JsonObject Part(FaultElement element) => new()
    {
        ["element"] = element.Place,
        ["kind"] = element.Kind.Word(),
        ["from"] = DiagnosisWords.Of(element.Reach),
        ["place"] = element.End?.ToString() ?? element.Track?.ToString() ?? element.Piece?.ToString() ?? element.BusPoint,
    };

    private static JsonObject Of(ReadingSet set, Diagnosis diagnosis) => new()
    {
        ["faults"] = Array(diagnosis.Faults, OneFault),
        ["nothing-wrong"] = Number(diagnosis.NothingWrong),
        ["not-in-layout"] = Number(diagnosis.NotInModel),
        ["unlisted"] = Number(diagnosis.Unlisted),
        ["uncertainty-bits"] = Number(diagnosis.Bits),
        ["readings"] = Array(set.Readings.Zip(diagnosis.Readings), one => new JsonObject
        {
            ["reading"] = one.First.ToString(),
            ["measured"] = Number(one.Second.Measured),
            ["without-fault"] = Number(one.Second.Healthy),
            ["predicted"] = Number(one.Second.Best),
            ["sigmas"] = Number(one.Second.Sigmas),
        }),
        ["remarks"] = Array(DiagnosisWords.Remarks(set, diagnosis), remark => JsonValue.Create(remark)),
        ["next"] = Array(diagnosis.Next, Next),
        ["unexplained"] = diagnosis.Contradiction is { } worst
            ? [new JsonObject { ["reading"] = set.Readings[worst.Reading].ToString(), ["sigmas"] = Number(worst.Sigmas) }]
            : new JsonArray(),
    };

    private static JsonObject OneFault(RankedFault ranked)
    {
        Fault first = ranked.Parts[0];
        return new()
        {
            ["element"] = string.Join(" and ", ranked.Parts.Select(part => part.Element.Place)),
            ["state"] = first.State.Word(),
            ["ohms"] = Ohms(first.Ohms),
            ["probability"] = Number(ranked.Probability),
            ["group"] = ranked.Group,
            ["predicted"] = Array(ranked.Predicted, Number),
            ["parts"] = Array(ranked.Parts, OnePart),
            ["confirm"] = ranked.Confirm is { } confirm ? Next(confirm) : null,
        };
    }

    private static JsonObject OnePart(Fault fault)
    {
        FaultAdvice advice = FaultAdvice.Of(fault.Element.Kind, fault.State);
        JsonObject node = Part(fault.Element);
        node["state"] = fault.State.Word();
        node["ohms"] = Ohms(fault.Ohms);
        node["ohms-least"] = Ohms(fault.LeastOhms);
        node["ohms-most"] = Ohms(fault.MostOhms);
        node["message"] = DiagnosisWords.State(fault);
        node["look"] = advice.Look;
        node["remedy"] = advice.Mend;
        node["beware"] = advice.Beware;
        return node;
    }

    private static JsonObject Next(NextReading next) => new()
    {
        ["reading"] = next.Words,
        ["gain-bits"] = Number(next.Bits),
        ["minutes"] = Number(next.Minutes),
        ["from"] = DiagnosisWords.Of(next.Reach),
    };

    private static JsonNode? Ohms(ElectricResistance? resistance) => resistance is { } ohms ? Number(ohms.Ohms) : null;
}
