using System.Collections.Immutable;
using System.CommandLine;
using WireUp.Circuits;
using WireUp.Files;
using WireUp.Layouts;

namespace WireUp.Commands;

/// <summary>What was typed behind <c>--load</c>, <c>--probe</c> and <c>--set</c>.</summary>
/// <param name="Loads">Loads at places.</param>
/// <param name="Probes">Places whose volts are wanted.</param>
/// <param name="Set">Positions of turnouts and switches.</param>
internal sealed record PlaceArguments(string[] Loads, string[] Probes, string[] Set)
{
    /// <summary>The option <c>--set</c>.</summary>
    public static Option<string[]> SetOption() => new("--set")
    {
        Description = "How a turnout, slip, turntable or switch stands: 'T1=diverging'. May be given several times; the rest stand in their first position.",
    };

    /// <summary>Options of the circuit with those loads and probes, set so.</summary>
    /// <exception cref="InputRefused">A place, current or position cannot be read.</exception>
    public PowerOptions Options(Layout layout) => new()
    {
        Loads = [.. Loads.SelectMany(text => LoadsAt(layout, text))],
        Probes = [.. Probes.Select(text => Common.Value(LayoutWords.Place(layout, text.Trim()), $"--probe '{text}'"))],
        Turnouts = Positions(layout),
    };

    private ImmutableSortedDictionary<PieceId, string> Positions(Layout layout)
    {
        ImmutableSortedDictionary<PieceId, string>.Builder positions = ImmutableSortedDictionary.CreateBuilder<PieceId, string>();
        foreach (string text in Set)
        {
            string[] parts = text.Split('=', 2, StringSplitOptions.TrimEntries);
            PieceId owner = new(parts[0]);
            if (parts.Length < 2)
            {
                throw new InputRefused($"--set '{text}' names no position; expected a piece or switch and its position, such as 'T1=diverging'");
            }

            ImmutableArray<string> possible = PositionsOf(layout, owner)
                ?? throw new InputRefused($"--set '{text}': there is no piece and no switch '{owner}'");
            if (!possible.Contains(parts[1]))
            {
                throw new InputRefused(possible.IsEmpty
                    ? $"--set '{text}': '{owner}' has no positions, nothing of it moves"
                    : $"--set '{text}': '{owner}' has no position '{parts[1]}'; expected {string.Join(", ", possible)}");
            }

            positions[owner] = parts[1];
        }

        return positions.ToImmutable();
    }

    private static ImmutableArray<string>? PositionsOf(Layout layout, PieceId owner) =>
        layout.Track.FirstOrDefault(piece => piece.Id == owner) is { } piece
            ? PiecePositions.Of(piece)
            : layout.Wiring.Switches.FirstOrDefault(item => item.Name == owner)?.Positions;

    private static IEnumerable<PlacedLoad> LoadsAt(Layout layout, string text)
    {
        string option = $"--load '{text}'";
        int sign = text.LastIndexOf('=');
        if (sign < 0)
        {
            throw new InputRefused($"{option} does not say what is drawn; expected a place and a load, such as 'loop@1 m=0.5 A'");
        }

        TrackPlace at = Common.Value(LayoutWords.Place(layout, text[..sign].Trim()), option);
        string demand = text[(sign + 1)..].Trim();
        ImmutableArray<PlacedLoad> ofStock = [.. PlacedLoad.OfStock(at, demand, layout)];
        return ofStock.IsEmpty ? [new(at, Demand(demand, option))] : ofStock;
    }

    private static LoadDemand Demand(string text, string option) =>
        LayoutWords.Power(text).Value is { } watts ? new LoadDemand.Power(watts)
        : LayoutWords.Resistance(text).Value is { } ohms ? new LoadDemand.Resistance(ohms)
        : LayoutWords.Current(text) is { Value: { } amps } ? new LoadDemand.Current(amps)
        : throw new InputRefused($"{option}: {LayoutWords.Current(text).Trouble}; a power (7 W), a resistance (30 ohm) or the name of a locomotive or train will do as well");
}
