// Times the RRT-Connect of the Open Motion Planning Library on the same scene,
// with the Flexible Collision Library behind it. After the scene (scene.hpp):
// step, rounds, seconds, queries Q, then for each: start goal. Prints for each
// query and round: solved (0 or 1), CPU ms, state checks, path length.
#include <ompl/base/ProblemDefinition.h>
#include <ompl/base/SpaceInformation.h>
#include <ompl/base/spaces/RealVectorStateSpace.h>
#include <ompl/geometric/PathGeometric.h>
#include <ompl/geometric/planners/rrt/RRTConnect.h>
#include <ompl/util/Console.h>
#include <ompl/util/RandomNumbers.h>
#include <ctime>
#include "scene.hpp"
namespace ob = ompl::base;
namespace og = ompl::geometric;

static double cpu() {
  timespec t;
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
  return t.tv_sec * 1e3 + t.tv_nsec / 1e6;
}

int main(int argc, char** argv) {
  ompl::msg::setLogLevel(ompl::msg::LOG_ERROR);
  ompl::RNG::setSeed(argc > 1 ? std::atoi(argv[1]) : 1);
  Scene scene;
  scene.read();
  size_t n = scene.origins.size();
  auto space = std::make_shared<ob::RealVectorStateSpace>(n);
  ob::RealVectorBounds bounds(n);
  double square = 0;
  for (size_t j = 0; j < n; j++) {
    bounds.setLow(j, scene.lower[j]);
    bounds.setHigh(j, scene.upper[j]);
    square += std::pow(scene.upper[j] - scene.lower[j], 2);
  }
  space->setBounds(bounds);
  auto info = std::make_shared<ob::SpaceInformation>(space);
  info->setStateValidityChecker([&](const ob::State* s) {
    return scene.valid(s->as<ob::RealVectorStateSpace::StateType>()->values);
  });
  info->setStateValidityCheckingResolution(number() / std::sqrt(square));
  info->setup();
  int rounds = int(number());
  double seconds = number();
  for (int k = heading("queries"); k > 0; k--) {
    ob::ScopedState<> start(space), goal(space);
    for (size_t j = 0; j < n; j++) start[j] = number();
    for (size_t j = 0; j < n; j++) goal[j] = number();
    for (int r = 0; r < rounds; r++) {
      auto problem = std::make_shared<ob::ProblemDefinition>(info);
      problem->setStartAndGoalStates(start, goal);
      auto planner = std::make_shared<og::RRTConnect>(info);
      planner->setProblemDefinition(problem);
      planner->setup();
      scene.checks = 0;
      double t = cpu();
      auto status = planner->solve(ob::timedPlannerTerminationCondition(seconds));
      t = cpu() - t;
      bool solved = status == ob::PlannerStatus::EXACT_SOLUTION;
      double length = solved ? problem->getSolutionPath()->as<og::PathGeometric>()->length() : 0;
      std::cout << solved << " " << t << " " << scene.checks << " " << length << "\n";
    }
  }
}
