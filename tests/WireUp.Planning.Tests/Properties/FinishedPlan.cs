using WireUp.Checking;
using WireUp.Layouts;
using WireUp.Rails.Tests.Properties;

namespace WireUp.Planning.Tests.Properties;

/// <summary>
/// Judges a plan that calls itself finished by what knows nothing of the planner: the check, the circuit solver, and a walk along every rail
/// with the turnouts in all positions, or in many by chance where they are too many.
/// </summary>
internal static class FinishedPlan
{
    private const int MostStands = 256;

    /// <summary>What is wrong with a plan that calls itself finished, or null.</summary>
    public static string? Trouble(PlanResult plan, int seed)
    {
        if (!plan.IsFinished)
        {
            return null;
        }

        CheckReport check = Checker.Check(plan.After, TestContext.Current.CancellationToken);
        if (check.Findings.FirstOrDefault(finding => finding.Severity == Severity.Error) is { } error)
        {
            return $"{error.Code}: {error.Message}";
        }

        if (check.Power.Districts.FirstOrDefault(district => !district.CoinTestPasses || district.LowestVolts.Drop > plan.After.MaxDrop) is { } weak)
        {
            return $"district {weak.District}: drop {weak.LowestVolts.Drop}, fault {weak.FaultOverTrip:0.0} × trip";
        }

        WalkOracle oracle = new(plan.After);
        return Stands(oracle, seed).FirstOrDefault(stand => oracle.In(stand).IsShort()) is { } shorted
            ? $"a walk finds A touching B with {string.Join(", ", shorted)}"
            : null;
    }

    private static IEnumerable<Dictionary<PieceId, string>> Stands(WalkOracle oracle, int seed)
    {
        if (oracle.Owners.Aggregate(1.0, (product, owner) => product * (owner.Positions.Length + 1)) <= MostStands)
        {
            return oracle.AllStands();
        }

        Random chance = new(seed);
        return Enumerable.Range(0, MostStands).Select(_ => oracle.Owners
            .Select(owner => (owner.Id, Position: chance.Next(owner.Positions.Length + 1) is var at && at < owner.Positions.Length ? owner.Positions[at] : null))
            .Where(owner => owner.Position is not null)
            .ToDictionary(owner => owner.Id, owner => owner.Position!));
    }
}
