using System.Text.Json.Nodes;
using WireUp.Checking;
using WireUp.Circuits;
using WireUp.Planning;

namespace WireUp.Output;

/// <summary>Results as JSON: keys in kebab-case, SI units in the key, prose only in <c>message</c>, <c>remedy</c> and <c>reason</c>.</summary>
internal static class ResultJson
{
    /// <summary>What <c>check --json</c> prints.</summary>
    public static JsonObject Check(IReadOnlyCollection<Finding> findings) => new()
    {
        ["findings"] = Array(findings, OneFinding),
        ["summary"] = new JsonObject
        {
            ["errors"] = findings.Count(finding => finding.Severity == Severity.Error),
            ["warnings"] = findings.Count(finding => finding.Severity == Severity.Warning),
            ["advice"] = findings.Count(finding => finding.Severity == Severity.Advice),
        },
    };

    /// <summary>What <c>power --json</c> prints.</summary>
    public static JsonObject Power(PowerReport report, MeetingLoads? meeting, IEnumerable<TrainOverGap> trains)
    {
        JsonObject node = Power(report, meeting);
        node["trains-over-gaps"] = Array(trains, train => new JsonObject
        {
            ["at"] = train.At.ToString(),
            ["district"] = train.District,
            ["other-district"] = train.OtherDistrict,
            ["volts-apart"] = Number(train.Difference.Volts),
            ["amps"] = Number(train.Current.Amperes),
        });
        return node;
    }

    /// <summary>The figures of a solved layout.</summary>
    public static JsonObject Power(PowerReport report, MeetingLoads? meeting)
    {
        JsonObject node = new()
        {
            ["islands"] = Array(report.Districts, district => OneDistrict(district, meeting)),
            ["sections"] = Array(report.Sections, section => new JsonObject
            {
                ["section"] = section.Section.Name,
                ["district"] = section.District,
                ["loop-ohms-max"] = Number(section.LargestLoop.Loop.Ohms),
                ["at-metres"] = Number(section.LargestLoop.At.MetresFromA),
                ["fault-amps-min"] = Number(section.LargestLoop.FaultCurrent.Amperes),
            }),
            ["unfed"] = Array(report.Unfed, place => JsonValue.Create(place.ToString())),
            ["problems"] = Array(report.Problems, problem => JsonValue.Create(problem.Message)),
        };
        if (!report.Places.IsEmpty)
        {
            node["places"] = Array(report.Places, place => new JsonObject
            {
                ["at"] = place.At.ToString(),
                ["volts"] = Number(place.Volts.Volts),
                ["drawn-amps"] = place.Drawn is { } drawn ? Number(drawn.Amperes) : null,
            });
        }

        return node;
    }

    /// <summary>What <c>wire --json</c> prints.</summary>
    public static JsonObject Wires(IEnumerable<WireRow> rows) => new()
    {
        ["wires"] = Array(rows, row => new JsonObject
        {
            ["wire"] = row.Wire.ToString(),
            ["loop-ohms"] = Number(row.Loop.Ohms),
            ["drop-percent"] = Number(row.Drop.Percent),
            ["fault-amps"] = Number(row.FaultCurrent.Amperes),
            ["carries-amps"] = Number(row.Carries.Amperes),
            ["will-do"] = row.Broken.IsEmpty,
            ["broken"] = Array(row.Broken, text => JsonValue.Create(text)),
        }),
    };

    /// <summary>What <c>plan --json</c> prints.</summary>
    public static JsonObject Plan(PlanResult plan)
    {
        JsonObject objective = [];
        foreach (Objective one in plan.Objectives)
        {
            objective[one.Name] = new JsonObject { ["value"] = Number(one.Value), ["bound"] = Number(one.Bound) };
        }

        return new JsonObject
        {
            ["finished"] = plan.IsFinished,
            ["proposals"] = Array(plan.Proposals, OneProposal),
            ["objective"] = objective,
            ["gauges"] = Array(plan.Gauges, row => new JsonObject
            {
                ["district"] = row.District,
                ["wire"] = row.Wire.ToString(),
                ["drop-percent"] = Number(row.Drop.Percent),
                ["fault-amps"] = Number(row.FaultCurrent.Amperes),
                ["verdict"] = row.Verdict,
                ["planned-metres"] = Number(row.Planned.Meters),
            }),
            ["remains"] = Array(plan.Remains, text => JsonValue.Create(text)),
            ["findings"] = Check(plan.Findings)["findings"]!.DeepClone(),
            ["power"] = Power(plan.Power, MeetingLoads.Of(plan.After, plan.Power)),
        };
    }

    /// <summary>What <c>plan --what-if --json</c> prints.</summary>
    public static JsonObject Comparison(IEnumerable<(string Question, PlanResult Plan)> outcomes) => new()
    {
        ["outcomes"] = Array(outcomes, outcome =>
        {
            PlanFigures figures = PlanFigures.Of(outcome.Plan);
            return new JsonObject
            {
                ["what-if"] = outcome.Question,
                ["finished"] = figures.IsFinished,
                ["reversing-sections"] = figures.ReversingSections,
                ["rails-to-cut"] = figures.RailsToCut,
                ["districts"] = figures.Districts,
                ["boosters"] = figures.Boosters,
                ["feeders"] = figures.Feeders,
                ["bus-metres"] = Number(figures.Bus.Meters),
                ["drop-percent"] = Number(figures.LargestDrop.Percent),
                ["fault-over-trip"] = Number(figures.LeastFaultOverTrip),
                ["remains"] = Array(outcome.Plan.Remains, text => JsonValue.Create(text)),
            };
        }),
    };

    /// <summary>One proposal.</summary>
    public static JsonObject OneProposal(Proposal proposal) => new()
    {
        ["id"] = proposal.Id,
        ["kind"] = Words.Of(proposal.Kind),
        ["at"] = proposal.At,
        ["reason"] = proposal.Reason,
        ["rule"] = proposal.Rule,
        ["working"] = Array(proposal.Working, line => JsonValue.Create(line)),
        ["alternatives"] = Array(proposal.Alternatives, line => JsonValue.Create(line)),
        ["cost"] = Number(proposal.Cost),
    };

    private static JsonObject OneFinding(Finding finding)
    {
        JsonObject turnouts = [];
        foreach ((Layouts.PieceId piece, string position) in finding.Turnouts)
        {
            turnouts[piece.Name] = position;
        }

        return new JsonObject
        {
            ["code"] = finding.Code,
            ["severity"] = finding.Severity.Word(),
            ["message"] = finding.Message,
            ["remedy"] = finding.Remedy,
            ["places"] = Array(finding.Places, place => JsonValue.Create(place)),
            ["path"] = Array(finding.Path, place => JsonValue.Create(place)),
            ["turnouts"] = turnouts,
        };
    }

    private static JsonObject OneDistrict(DistrictPower district, MeetingLoads? meeting) => new()
    {
        ["district"] = district.District,
        ["booster"] = district.Booster,
        ["source-volts"] = Number(district.SourceVolts.Volts),
        ["design-load-amps"] = Number(district.DesignLoad.Amperes),
        ["meeting-load-amps"] = meeting?.OfDistrict(district.District) is { } met ? Number(met.Amperes) : null,
        ["worst"] = OnePlace(district.LowestVolts),
        ["worst-fault"] = OnePlace(district.LowestFault),
        ["trip-amps"] = Number(district.Trip.Amperes),
        ["fault-over-trip"] = Number(district.FaultOverTrip),
        ["coin-test"] = district.CoinTestPasses ? "pass" : "fail",
    };

    /// <summary>One place with its figures.</summary>
    public static JsonObject OnePlace(PlacePower place) => new()
    {
        ["at"] = place.At.ToString(),
        ["volts"] = Number(place.Volts.Volts),
        ["drop-percent"] = Number(place.Drop.Percent),
        ["fault-amps"] = Number(place.FaultCurrent.Amperes),
        ["loop-ohms"] = Number(place.Loop.Ohms),
    };

    /// <summary>A node for each item.</summary>
    public static JsonArray Array<T>(IEnumerable<T> items, Func<T, JsonNode?> node) => [.. items.Select(node)];

    /// <summary>Ten significant digits: more than any meter, and no digits that are only noise of arithmetic. Infinite becomes null.</summary>
    public static JsonNode? Number(double value) => double.IsFinite(value)
        ? JsonValue.Create(double.Parse(value.ToString("G10", System.Globalization.CultureInfo.InvariantCulture), System.Globalization.CultureInfo.InvariantCulture))
        : null;
}
