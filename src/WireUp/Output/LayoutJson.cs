using System.Text.Json.Nodes;
using WireUp.Layouts;
using WireUp.Rails;
using static WireUp.Output.ResultJson;

namespace WireUp.Output;

/// <summary>A layout as its rail graph and wiring, for other programs. Lengths in metres.</summary>
internal static class LayoutJson
{
    /// <summary>The whole document.</summary>
    public static JsonObject Of(RailGraph graph) => new()
    {
        ["name"] = graph.Layout.Name,
        ["scale"] = graph.Layout.Scale,
        ["pieces"] = Array(graph.Layout.Track, Piece),
        ["joints"] = Array(graph.Layout.Joints, joint => new JsonObject
        {
            ["ends"] = new JsonArray(joint.First.ToString(), joint.Second.ToString()),
            ["kind"] = joint.Kind == JointKind.Soldered ? "soldered" : "joiner",
            ["open-rails"] = Rails(graph.Index.OpenRails(joint.First)),
        }),
        ["rail-points"] = Array(graph.Nodes, node => JsonValue.Create(node.ToString())),
        ["conducts"] = Array(graph.Links, link => Link(graph, link)),
        ["feeders"] = Array(graph.Layout.Wiring.Feeders, feeder => new JsonObject
        {
            ["name"] = feeder.Name,
            ["at"] = feeder.At.ToString(),
            ["district"] = feeder.District,
            ["tap"] = feeder.Tap,
            ["wire"] = feeder.Wire.ToString(),
            ["metres"] = feeder.Length.Meters,
            ["swap"] = feeder.Swap,
            ["when"] = feeder.When?.ToString(),
        }),
        ["switches"] = Array(graph.Layout.Wiring.Switches, hand => new JsonObject
        {
            ["name"] = hand.Name.Name,
            ["positions"] = Array(hand.Positions, position => JsonValue.Create(position)),
        }),
        ["bus-runs"] = Array(
            graph.Layout.Wiring.Buses.SelectMany(bus => bus.Runs.Select(run => (bus.District, Run: run))),
            entry => new JsonObject
            {
                ["district"] = entry.District,
                ["from"] = entry.Run.From,
                ["to"] = entry.Run.To,
                ["wire"] = entry.Run.Wire.ToString(),
                ["metres"] = entry.Run.Length.Meters,
            }),
    };

    private static JsonObject Piece(Piece piece)
    {
        JsonObject node = new()
        {
            ["name"] = piece.Id.Name,
            ["kind"] = piece switch
            {
                Layouts.Piece.Section => "section",
                Layouts.Piece.Stop => "stop",
                Layouts.Piece.Turnout => "turnout",
                Layouts.Piece.MultiTurnout => "multi-turnout",
                Layouts.Piece.Crossing => "crossing",
                Layouts.Piece.Slip => "slip",
                Layouts.Piece.Scissors => "scissors",
                Layouts.Piece.Turntable => "turntable",
                Layouts.Piece.TransferTable => "transfer-table",
                _ => throw new ArgumentOutOfRangeException(nameof(piece), piece, "not a piece"),
            },
            ["ends"] = Array(piece.EndNames, name => JsonValue.Create(name)),
            ["positions"] = Array(PiecePositions.Of(piece), position => JsonValue.Create(position)),
        };
        if (piece.PlacesMetres is { } metres)
        {
            node["metres"] = metres;
        }

        return node;
    }

    private static JsonObject Link(RailGraph graph, RailLink link)
    {
        JsonObject node = new()
        {
            ["from"] = graph.Nodes[link.From].ToString(),
            ["to"] = graph.Nodes[link.To].ToString(),
        };
        switch (link)
        {
            case RailLink.Rail rail:
                node["kind"] = "rail";
                node["metres"] = rail.LengthMetres;
                break;
            case RailLink.Bond:
                node["kind"] = "bond";
                break;
            case RailLink.Contact contact:
                node["kind"] = "contact";
                node["piece"] = contact.Piece.Name;
                node["position"] = contact.Position;
                break;
            case RailLink.Through:
                node["kind"] = "joint";
                break;
        }

        return node;
    }

    private static JsonArray Rails(RailSet open) =>
        [.. new[] { RailSide.Left, RailSide.Right }.Where(side => open.Holds(side)).Select(side => JsonValue.Create(RailSides.Word(side)))];
}
