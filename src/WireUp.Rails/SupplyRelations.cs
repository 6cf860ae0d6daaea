using System.Collections.Frozen;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Which wires may meet. Districts without a reversing device have a common phase, so that A may only meet A; a reversing
/// district is a supply of its own whose phase is free. Direct-current cabs are set by hand: each booster has a phase of its own.
/// What is not for trains to run on, programming tracks and accessories, is a supply of its own as well. On three-rail track the
/// running rails are common to all. What is out of phase swings against the others, so that A of the one is B of the other.
/// </summary>
internal sealed class SupplyRelations
{
    private readonly FrozenDictionary<string, District> _districts;
    private readonly FrozenDictionary<string, string> _phases;
    private readonly FrozenSet<string> _turned;
    private readonly ControlSystem _control;

    internal SupplyRelations(Layout layout)
    {
        _districts = layout.Wiring.Districts.ToFrozenDictionary(district => district.Name);
        _control = layout.Control;
        _phases = layout.Wiring.Districts.ToFrozenDictionary(district => district.Name, Phase);
        HashSet<string> turned = [.. layout.Wiring.Boosters.Where(booster => booster.PhaseTurned && _control != ControlSystem.Direct).Select(booster => booster.Name)];
        _turned = layout.Wiring.Districts.Where(district => turned.Contains(district.Booster)).Select(district => district.Name).ToFrozenSet();
    }

    /// <summary>A name that two districts share when their phases are tied to each other.</summary>
    internal string PhaseOf(string district) => _phases[district];

    /// <summary>What is wrong when two wires meet, or null.</summary>
    internal MeetingKind? Between(FeederLeg first, FeederLeg second)
    {
        if (PhaseOf(first.District) != PhaseOf(second.District))
        {
            return _districts[first.District].Reversing || _districts[second.District].Reversing
                ? MeetingKind.Reversing
                : MeetingKind.Joined;
        }

        // Axles join the running rails of three-rail track, whatever feeds them.
        bool runningRails = _control == ControlSystem.ThreeRail && first.Leg == Leg.B && second.Leg == Leg.B;
        return runningRails || first.District == second.District && first.Leg == second.Leg ? null
            : AreOpposed(first, second) ? MeetingKind.Short
            : MeetingKind.Joined;
    }

    /// <summary>Whether the power of a district is turned in phase against that of most others.</summary>
    internal bool IsTurned(string district) => _turned.Contains(district);

    /// <summary>Opposite legs of supplies in phase, or the same leg of two out of phase; on three-rail track opposite legs always.</summary>
    private bool AreOpposed(FeederLeg first, FeederLeg second) => _control == ControlSystem.ThreeRail && first.Leg != second.Leg
        || (first.Leg == second.Leg) == (IsTurned(first.District) != IsTurned(second.District));

    /// <summary>Whether both wires belong to devices that swap polarity, and not to the same one.</summary>
    internal bool BothSwap(FeederLeg first, FeederLeg second) =>
        first.District != second.District && _districts[first.District].Reversing && _districts[second.District].Reversing;

    private string Phase(District district) => district switch
    {
        { Use: DistrictUse.Programming } => $"programming {district.Name}",
        { Use: DistrictUse.Accessories } => $"accessories {district.Name}",
        { Reversing: true } => $"reversing {district.Name}",
        _ when _control == ControlSystem.Direct => $"booster {district.Booster}",
        _ => "",
    };
}
