namespace WireUp.Rails;

/// <summary>Sorts fed nets by what feeds them: nets of one kind may meet, or must not meet, the same others.</summary>
internal sealed class FedKinds(RailNets nets, SupplyRelations relations)
{
    private readonly Dictionary<string, int> _numbers = [];
    private readonly Dictionary<int, int> _kinds = [];
    private readonly List<int> _example = [];
    private readonly Dictionary<(int One, int Other), MeetingKind?> _worst = [];

    /// <summary>The kind of a fed net, from 0.</summary>
    internal int Of(int net)
    {
        if (!_kinds.TryGetValue(net, out int kind))
        {
            string legs = string.Join('\n', nets.Legs[net].Select(leg => $"{leg.Leg} {leg.District}").Order(StringComparer.Ordinal));
            if (!_numbers.TryGetValue(legs, out kind))
            {
                _numbers[legs] = kind = _example.Count;
                _example.Add(net);
            }

            _kinds[net] = kind;
        }

        return kind;
    }

    /// <summary>The worst that happens when two nets meet, or null when they may.</summary>
    internal MeetingKind? Worst(int first, int second) => WorstOfKinds(Of(first), Of(second));

    /// <summary>A net in which wires meet already tells nothing about what meets it.</summary>
    internal bool IsSpoilt(int net) => Worst(net, net) is not null;

    private MeetingKind? WorstOfKinds(int first, int second)
    {
        if (!_worst.TryGetValue((first, second), out MeetingKind? worst))
        {
            _worst[(first, second)] = worst = Compare(_example[first], _example[second]);
        }

        return worst;
    }

    private MeetingKind? Compare(int first, int second)
    {
        MeetingKind? worst = null;
        foreach (FeederLeg from in nets.Legs[first])
        {
            foreach (FeederLeg to in nets.Legs[second])
            {
                if (relations.Between(from, to) is { } kind && !(kind >= worst))
                {
                    worst = kind;
                }
            }
        }

        return worst;
    }
}
