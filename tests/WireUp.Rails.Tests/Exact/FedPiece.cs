using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>
/// One piece with a fed section at every end, as a bench to test it on. Seen along the piece from its plus ends to the others,
/// leg A is on the left everywhere. A rail is named <c>a1 L</c>: the end, and the side in that sense.
/// </summary>
internal sealed class FedPiece(Piece piece, string plusEnds, string? fedEnds = null)
{
    private static readonly PieceId Name = new("X");

    /// <summary>The positions in which some wires A and B meet, with gaps in those rails.</summary>
    public string ShortIn(params string[] gaps)
    {
        RailGraph graph = Graph(gaps);
        return string.Join(' ', graph.PositionsOf(Name).Where(position => IsShort(graph, position)));
    }

    /// <summary>As <see cref="ShortIn"/>, with gaps in all of these rails but one.</summary>
    public string ShortWithout(string missing, params string[] gaps) => ShortIn([.. gaps.Where(gap => gap != missing)]);

    public bool IsShortWhileMoving(string moment, params string[] gaps) => IsShort(Graph(gaps), moment);

    public PolarityReport Analyse(params string[] gaps) => Polarity.Analyse(Graph(gaps));

    /// <summary>What a rail or inner conductor carries: <c>A</c>, <c>B</c>, <c>-</c> for nothing, <c>X</c> for both.</summary>
    public string Carries(string rail, string? position, params string[] gaps)
    {
        RailGraph graph = Graph(gaps);
        int node = rail.Contains(' ') ? graph.NodeAt(RailOf(rail)) : graph.NodeInside(Name, rail) ?? -1;
        return node < 0 ? "-" : Legs(graph, position)[node] switch
        {
            { IsEmpty: true } => "-",
            { Count: 1 } legs => legs[0][^1..],
            _ => "X",
        };
    }

    /// <summary>What the two rails of an end carry, the left one first.</summary>
    public string End(string end, string? position, params string[] gaps) => Carries($"{end} L", position, gaps) + Carries($"{end} R", position, gaps);

    private static bool IsShort(RailGraph graph, string position) => Legs(graph, position).Any(legs => legs.Count > 1);

    private static ImmutableArray<ImmutableSortedSet<string>> Legs(RailGraph graph, string? position) =>
        Polarity.LegsIn(graph, position is null ? new Dictionary<PieceId, string>() : new() { [Name] = position });

    private RailGraph Graph(string[] gaps)
    {
        PlanBuilder plan = new PlanBuilder().Piece(piece);
        foreach (string end in piece.EndNames)
        {
            plan.Sections($"at-{end}").Chain($"X.{end} > at-{end}");
            if ((fedEnds ?? end).Split(' ').Contains(end))
            {
                plan.Feed("d", $"at-{end}@1{(IsPlus(end) ? "!" : "")}");
            }
        }

        foreach (RailEnd rail in gaps.Select(RailOf))
        {
            plan.Gap(rail.End.ToString(), rail.Side == RailSide.Left ? RailSet.Left : RailSet.Right);
        }

        return plan.Feed("d").Graph();
    }

    private bool IsPlus(string end) => plusEnds.Split(' ').Contains(end);

    /// <summary>Rails at plus ends are seen looking into the piece, rails of the layout looking out of it.</summary>
    private RailEnd RailOf(string rail)
    {
        string[] words = rail.Split(' ');
        return new(new(Name, words[0]), IsPlus(words[0]) == (words[1] == "L") ? RailSide.Right : RailSide.Left);
    }
}
